"""For people who are new to the trade: what each box is about, and cases to practise on."""
