package archive

import (
	"fmt"
	"strings"
	"time"
)

// metadataXML is the XMP packet. It says the same as the document information,
// property by property, and adds the two claims of conformance. The schema of the
// second has to be described, for PDF/A does not know it (ISO 19005-3, 6.6.2.3).
func metadataXML(d *Document) []byte {
	part := 3
	if d.Profile == PDFA2A {
		part = 2
	}
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		"<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n" +
		"<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n" +
		"<rdf:Description rdf:about=\"\"\n" +
		" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n" +
		" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"\n" +
		" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n" +
		" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n" +
		" xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"\n" +
		" xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n" +
		" xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n" +
		" xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n")
	element := func(name, before, value, after string) {
		if value != "" {
			fmt.Fprintf(&b, "<%s>%s%s%s</%s>\n", name, before, escapeXML(value), after, name)
		}
	}
	const alt, altEnd = `<rdf:Alt><rdf:li xml:lang="x-default">`, "</rdf:li></rdf:Alt>"
	element("dc:format", "", "application/pdf", "")
	element("dc:title", alt, d.Title, altEnd)
	element("dc:creator", "<rdf:Seq><rdf:li>", d.Author, "</rdf:li></rdf:Seq>")
	element("dc:description", alt, d.Subject, altEnd)
	element("dc:language", "<rdf:Bag><rdf:li>", d.Lang, "</rdf:li></rdf:Bag>")
	if len(d.Keywords) > 0 {
		b.WriteString("<dc:subject><rdf:Bag>")
		for _, k := range d.Keywords {
			b.WriteString("<rdf:li>" + escapeXML(k) + "</rdf:li>")
		}
		b.WriteString("</rdf:Bag></dc:subject>\n")
	}
	element("pdf:Keywords", "", keywords(d), "")
	element("pdf:Producer", "", d.Creator, "")
	element("xmp:CreatorTool", "", d.Creator, "")
	element("xmp:CreateDate", "", xmpDate(d.Issued), "")
	element("xmp:ModifyDate", "", xmpDate(d.Issued), "")
	element("xmp:MetadataDate", "", xmpDate(d.Issued), "")
	element("pdfaid:part", "", fmt.Sprint(part), "")
	element("pdfaid:conformance", "", "A", "")
	element("pdfuaid:part", "", "1", "")
	b.WriteString(uaSchema)
	b.WriteString("</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return []byte(b.String())
}

// uaSchema describes pdfuaid:part.
const uaSchema = `<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>part of ISO 14289 that the file conforms to</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
`

func xmpDate(t time.Time) string { return t.Format("2006-01-02T15:04:05-07:00") }

func escapeXML(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(s)
}
