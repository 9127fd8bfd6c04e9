package papers

import (
	"html"
	"strings"
)

// The looks of a letter. Styles stand in the tags, because mail programs drop style sheets. No colour is set but that of the rule, which
// shows on light and dark alike: a mail program chooses the rest by day and by night.
const (
	htmlPage = `font-family:-apple-system,'Segoe UI',Roboto,'Noto Sans',Helvetica,Arial,sans-serif;font-size:17px;line-height:1.5;` +
		`max-width:600px;margin:0 auto;padding:16px;word-wrap:break-word;overflow-wrap:break-word`
	htmlHead  = `font-size:18px;line-height:1.3;margin:28px 0 10px;padding-top:10px;border-top:2px solid #b0703c`
	htmlText  = `margin:0 0 10px`
	htmlApart = `margin:24px 0 10px` // the first of a piece without a heading
	htmlList  = `margin:0 0 10px;padding:0 0 0 22px`
	htmlPoint = `margin:0 0 6px`
	htmlLarge = `font-size:24px;line-height:1.3`
	htmlLink  = `color:inherit;text-decoration:underline`
)

// letterHTML is a letter that reads on a phone: one column, nothing to load, no links but those of its facts.
func letterHTML(title string, pieces []piece) string {
	var b strings.Builder
	b.WriteString(`<!DOCTYPE html>
<html lang="en" style="color-scheme:light dark">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta name="color-scheme" content="light dark"/>
<title>` + htmlEscaped(title) + `</title>
</head>
<body style="margin:0;padding:0">
<div style="` + htmlPage + `">
`)
	for _, p := range pieces {
		p.html(&b)
	}
	b.WriteString("</div>\n</body>\n</html>\n")
	return b.String()
}

// html writes a piece. Each paragraph runs in the direction of its own letters, so that a name in another script turns nothing around it.
func (p piece) html(b *strings.Builder) {
	element := func(tag, style, inner string) {
		b.WriteString("<" + tag + ` dir="auto" style="` + style + `">` + inner + "</" + tag + ">\n")
	}
	style := htmlApart
	text := func(inner string) {
		element("p", style, inner)
		style = htmlText
	}
	if p.head != "" {
		element("h2", htmlHead, htmlEscaped(p.head))
		style = htmlText
	}
	for _, f := range p.facts {
		text(f.html(p.head != ""))
	}
	if len(p.list) > 0 {
		b.WriteString(`<ul style="` + htmlList + "\">\n")
		for _, item := range p.list {
			b.WriteString(`<li style="` + htmlPoint + `"><span dir="auto">` + htmlEscaped(item) + "</span></li>\n") // the mark stays at the left
		}
		b.WriteString("</ul>\n")
	}
	for _, line := range p.lines {
		text(htmlEscaped(line))
	}
}

// html is a fact on its line; under a heading the names are looked for, and stand out.
func (f fact) html(named bool) string {
	name, text := htmlEscaped(f.name)+":", htmlEscaped(f.text)
	if f.link != "" {
		text = `<a href="` + htmlEscaped(f.link) + `" style="` + htmlLink + `">` + text + "</a>"
	}
	if f.large {
		return name + `<br/><strong style="` + htmlLarge + `">` + text + "</strong>"
	}
	if named {
		name = "<strong>" + name + "</strong>"
	}
	return name + " " + text
}

// htmlEscaped is any text between tags or in an attribute. Signs that no document may hold are shown as lost.
func htmlEscaped(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return '\ufffd'
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return strings.ReplaceAll(html.EscapeString(s), "\n", "<br/>")
}

// telURI is a phone number as RFC 3966 writes it, without the marks between its digits. It is nothing where the text holds anything else,
// such as an extension or a second number: the reader dials that better by hand. The nought of "+44 (0)20" is not dialled behind the
// country's code.
func telURI(phone string) string {
	phone = strings.TrimSpace(phone)
	start := "tel:"
	if rest, ok := strings.CutPrefix(phone, "+"); ok {
		start, phone = "tel:+", strings.Replace(rest, "(0)", "", 1)
	}
	digits := 0
	number := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			digits++
			return r
		}
		if strings.ContainsRune(" -.()\u00a0\u2010\u2011\u2013", r) {
			return -1
		}
		return '?'
	}, phone)
	if digits < 3 || strings.Contains(number, "?") {
		return ""
	}
	return start + number
}
