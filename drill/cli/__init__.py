"""The terminal: thin commands that read, call and say. No decision is taken here."""
