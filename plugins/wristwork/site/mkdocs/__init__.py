"""The MkDocs plugin: settings, one build from pages to a published folder, navigation and look."""
