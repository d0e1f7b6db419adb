"""An exercise as HTML: diagram, words, demand."""
