"""What somebody played, heard against the pattern: where strokes begin, how the pattern lies on them."""
