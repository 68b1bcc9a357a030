"""Results of a large audit that are on the disk until somebody reads them, so that memory stays small."""
