"""Who works here: people and their roles, invitations, keys made on their phones."""
