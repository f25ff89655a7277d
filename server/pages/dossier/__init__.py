"""The dossier of a frame: a document to print, and the same data for programs and sheets."""
