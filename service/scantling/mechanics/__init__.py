"""Will it hold, tip, sag or rot: one file a subject, pure functions of numbers, each with its published source."""
