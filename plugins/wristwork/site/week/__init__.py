"""A week's page: its head, its practice card, its dates."""
