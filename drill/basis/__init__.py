"""What every floor of the house stands on: lengths, places, problems, plain values, words."""
