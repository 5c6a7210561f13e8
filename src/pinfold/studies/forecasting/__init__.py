"""How the job will go on by what its log tells: pace as it is learned, days really worked, hours and money to come."""
