"""Whether a paper may go out: gaps, conflicts, the assessment of a whole job, issue, and the proof of what was issued."""
