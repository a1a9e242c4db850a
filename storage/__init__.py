"""Remembers and files: the job log, the issued papers, exchange files and the PDF binding."""
