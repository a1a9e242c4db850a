"""What can be done with a job log over any store, each in one transaction: begin, edit, sign, issue, put right, register."""
