"""Processing algorithms: one a file, thin; they read columns, call geometry once a batch, and write columns."""
