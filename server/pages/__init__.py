"""The screens: one room per screen, with its route, template, script and style."""
