"""Pages over the whole course: home, curriculum, index, and every page that the tool makes itself."""
