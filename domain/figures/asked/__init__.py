"""The figures anyone may ask for by name: what each needs, and how it is worked out."""
