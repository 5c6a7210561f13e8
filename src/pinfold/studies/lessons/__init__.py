"""What the log teaches the plan: figures that start as published and are narrowed by the builder's own readings."""
