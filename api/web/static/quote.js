// The quote element.
