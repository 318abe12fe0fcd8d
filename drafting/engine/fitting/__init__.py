"""What was found at a fitting, drawn into the next draft; and left and right as they really are."""
