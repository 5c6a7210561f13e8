"""One function per thing a person can ask for; the only place that joins files, studies and reports."""
