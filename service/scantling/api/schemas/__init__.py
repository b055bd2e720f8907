"""What goes through the door: closed models for requests, open models for answers, every member documented."""
