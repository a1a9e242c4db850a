"""What can be done to a job: commands, the function that does them, undo, and the words the trail keeps of them."""
