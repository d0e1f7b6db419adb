"""What a student does with the site: links, lists, the log, dates, no signal. In a real browser."""
