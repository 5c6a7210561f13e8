"""What the work took in money and hours, line by line out of the log, and shared out over it to the last coin."""
