package jsontext

import "unicode/utf8"

// AppendText appends a text between quotation marks. What could be mistaken within
// HTML or a script is written by its number; bytes that are no UTF-8 become U+FFFD.
func AppendText(dst []byte, s string) []byte {
	const digits, letters, means = "0123456789abcdef", `"\bfnrt`, "\"\\\b\f\n\r\t"
	dst = append(dst, '"')
	from := 0 // of what stands as it is
	for i := 0; i < len(s); {
		if b := s[i]; ' ' <= b && b < utf8.RuneSelf && b != '"' && b != '\\' && b != '<' && b != '>' && b != '&' {
			i++
			continue
		}
		c, size := utf8.DecodeRuneInString(s[i:])
		if size > 1 && c != '\u2028' && c != '\u2029' {
			i += size
			continue
		}
		dst = append(dst, s[from:i]...)
		i += size
		from = i
		k := 0
		for k < len(means) && c != rune(means[k]) {
			k++
		}
		if k < len(means) {
			dst = append(dst, '\\', letters[k])
		} else {
			dst = append(dst, '\\', 'u', digits[c>>12], digits[c>>8&15], digits[c>>4&15], digits[c&15])
		}
	}
	return append(append(dst, s[from:]...), '"')
}

// AppendIndented appends a document that is JSON and holds no white space between its
// values, every member and element on a line of its own, moved in by so many spaces.
func AppendIndented(dst, doc []byte, spaces int) []byte {
	deep := 0
	line := func() {
		dst = append(dst, '\n')
		for range deep * spaces {
			dst = append(dst, ' ')
		}
	}
	for i := 0; i < len(doc); i++ {
		c := doc[i]
		switch c {
		case '{', '[':
			dst = append(dst, c)
			if doc[i+1] != c+2 { // its end, in ASCII
				deep++
				line()
			}
		case '}', ']':
			if doc[i-1] != c-2 {
				deep--
				line()
			}
			dst = append(dst, c)
		case ',':
			dst = append(dst, c)
			line()
		case ':':
			dst = append(dst, ':', ' ')
		case '"':
			from := i
			for i++; doc[i] != '"'; i++ {
				if doc[i] == '\\' {
					i++
				}
			}
			dst = append(dst, doc[from:i+1]...)
		default:
			dst = append(dst, c)
		}
	}
	return dst
}
