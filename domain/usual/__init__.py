"""What circuits and boards usually hold: the program's own as tables, put forward and never measured, counted or taken for granted."""
