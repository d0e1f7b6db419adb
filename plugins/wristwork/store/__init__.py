"""What is kept from build to build, outside the pages and the site."""
