"""What `manage.py up` does: starts the parts of Kitproof, keeps them running, and takes them all along when it ends."""
