"""What is true of film, dryers, school days, codes and a roll's history: pure functions."""
