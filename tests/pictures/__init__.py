"""Pictures of real screens for the README; `python -m tests.pictures` draws them into demo/pictures."""
