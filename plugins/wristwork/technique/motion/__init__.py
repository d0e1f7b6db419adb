"""How a hand moves from stroke to stroke: the path of the bead in time, and the arm that carries it."""
