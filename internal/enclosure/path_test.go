package enclosure

import "testing"

// What Windows takes for another place or a device is from the Microsoft page on
// naming files (value from memory).
func TestPathsStayInTheFolder(t *testing.T) {
	good := map[string]string{
		"hub.jpg": "hub.jpg", "photos/hub.jpg": "photos/hub.jpg", `photos\hub.jpg`: "photos/hub.jpg",
		"./hub.jpg": "hub.jpg", `.\photos\hub.jpg`: "photos/hub.jpg", "Ärmel Ø.png": "Ärmel Ø.png",
		"common.jpg": "common.jpg", "a..b.jpg": "a..b.jpg", ".hidden.jpg": ".hidden.jpg", "com10.jpg": "com10.jpg",
	}
	for typed, want := range good {
		if got, ok := clean(typed); !ok || got != want {
			t.Errorf("%q: %q, %v", typed, got, ok)
		}
	}
	for _, typed := range []string{
		"", ".", "..", "/", "/etc/passwd", "../hub.jpg", "photos/../../hub.jpg", "photos/../hub.jpg", `..\hub.jpg`,
		`\hub.jpg`, `\\server\share\hub.jpg`, "//server/hub.jpg", `C:\hub.jpg`, "C:hub.jpg", "hub.jpg:stream", "photos//hub.jpg",
		"photos/", "CON", "con.jpg", "photos/NUL.png", "COM1", "lpt9.jpg", "COM¹.jpg", "aux .jpg", "hub.jpg.", "hub.jpg ",
		"photos./hub.jpg", "hub?.jpg", "a|b.jpg", "hub\x00.jpg", "hub\n.jpg", "hub\xff.jpg",
	} {
		if got, ok := clean(typed); ok {
			t.Errorf("%q is taken, as %q", typed, got)
		}
	}
}
