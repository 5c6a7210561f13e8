"""What happened: kinds of log entries, one entry as a record, and which entries stand after corrections."""
