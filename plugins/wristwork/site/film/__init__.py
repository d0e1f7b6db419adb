"""A short film of an exercise for a message: its diagram with a running mark, the hands, its sound, its address."""
