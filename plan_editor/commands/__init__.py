"""What menus, keys and the command line ask for."""
