"""Areas that keep a hold clear of everything else, one rule set a file, all with the same results."""
