"""The figures of the sheet, each worked from its inputs."""
