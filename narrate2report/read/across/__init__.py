"""What sentences beside each other settle: what is pointed at, asked and answered, corrected, left out."""
