"""The people: who they are and how they sign in. It uses no other app of the kit."""
