"""What people hold beside the manual or fill in: the outline of a sheet, and the form of a loading."""
