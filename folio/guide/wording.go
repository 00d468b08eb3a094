package guide

import "strconv"

// plural writes a number of things.
func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// listed joins texts with commas and an "and".
func listed(parts []string) string {
	text := ""
	for i, p := range parts {
		switch {
		case i == 0:
		case i == len(parts)-1:
			text += " and "
		default:
			text += ", "
		}
		text += p
	}
	return text
}

// ranges writes rising numbers of steps, runs of three and more as "19 to 25".
func ranges(numbers []int) string {
	if len(numbers) == 0 {
		return ""
	}
	var parts []string
	for i := 0; i < len(numbers); {
		n := i
		for n+1 < len(numbers) && numbers[n+1] == numbers[n]+1 {
			n++
		}
		text := strconv.Itoa(numbers[i])
		if n > i+1 {
			text += " to " + strconv.Itoa(numbers[n])
		} else {
			n = i
		}
		parts = append(parts, text)
		i = n + 1
	}
	word := "steps "
	if len(numbers) == 1 {
		word = "step "
	}
	return word + listed(parts)
}

// fullName adds to the name of a piece that of its fitting.
func fullName(name, part string) string {
	switch part {
	case "", "case", "wrap", "liner", name:
		return name
	}
	return name + ", " + part
}

// lower returns a text with its first letter in lower case.
func lower(text string) string {
	if text != "" && text[0] >= 'A' && text[0] <= 'Z' {
		return string(text[0]-'A'+'a') + text[1:]
	}
	return text
}
