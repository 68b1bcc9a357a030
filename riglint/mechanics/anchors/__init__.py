"""What holds the line: bolts, slings round trunks, stems."""
