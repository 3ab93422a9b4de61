"""What every paper shares: words, amounts, page frame, tables, findings."""
