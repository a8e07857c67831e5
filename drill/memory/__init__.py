"""What a student holds: attempts folded into recall, the next decision to ask, weak topics, wrong ideas.

Everything here is derived from attempts and may be thrown away; nothing here reads a file or a clock.
"""
