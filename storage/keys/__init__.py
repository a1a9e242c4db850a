"""The key of a log: kept in its folder, used to sign seals, locked by a phrase in copies."""
