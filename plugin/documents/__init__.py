"""What people read and print: reports, tables, sheets."""
