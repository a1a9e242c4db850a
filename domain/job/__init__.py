"""What a job is: its pages of boxes, boards, circuits, readings and places. Values only; nothing here changes or judges one."""
