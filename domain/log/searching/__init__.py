"""Finding a job by what somebody half remembers: times as words, words nearly right, and most of what was asked first."""
