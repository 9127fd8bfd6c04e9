package assets

import _ "embed"

// QuoteTerms is the small print of a quote, in our own plain English, a paragraph a point. It is a template and no legal advice, as
// its first line says.
//
//go:embed terms.txt
var QuoteTerms string
