"""Pattern → strokes, heights and demand."""
