"""The forecast to complete: plan against actual and the crew's pace brought together with goods and days."""
