"""From every form the records have had to today's: one step a file, never changed once it is released."""
