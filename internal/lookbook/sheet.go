package lookbook

import (
	"fmt"
	"html/template"
	"image"
	"image/png"
	"os"
	"path/filepath"
)

// Pair is a page as it was kept, if it was, and as it is.
type Pair struct {
	Name     string
	From     string // which page of which document
	Kept     image.Image
	Now      image.Image
	Distance Distance
	Same     bool
}

var sheet = template.Must(template.New("sheet").Parse(`<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Look book</title>
<style>body{font:15px sans-serif;background:#e8e8e8}div{display:flex;gap:1em}figure{margin:0}img{background:#fff;max-width:31vw}</style>
<h1>Look book</h1>
<p>Red is gone, blue is new. Similarity and color are those of the worst square.</p>
{{range .}}<h2>{{.Name}}: {{if not .Kept}}new{{else if .Same}}same{{else}}DIFFERS{{end}}</h2>
<p>{{.From}}{{if .Kept}}; similarity {{printf "%.2f" .Distance.Similarity}} at {{.Distance.Dissimilar}}, color {{printf "%.1f" .Distance.Color}} at {{.Distance.Discolored}}{{end}}</p>
<div>{{if .Kept}}<figure><img src="{{.Name}}-kept.png" alt=""><figcaption>kept</figcaption></figure>
{{end}}<figure><img src="{{.Name}}-now.png" alt=""><figcaption>now</figcaption></figure>
{{if .Kept}}<figure><img src="{{.Name}}-difference.png" alt=""><figcaption>difference</figcaption></figure>{{end}}</div>
{{end}}</html>
`))

// WriteSheet writes into a folder a page for a browser, look-book.html, with every pair as it was,
// as it is, and what differs.
func WriteSheet(folder string, pairs []Pair) error {
	for _, p := range pairs {
		if err := WritePicture(filepath.Join(folder, p.Name+"-now.png"), p.Now); err != nil {
			return err
		}
		if p.Kept == nil {
			continue
		}
		if err := WritePicture(filepath.Join(folder, p.Name+"-kept.png"), p.Kept); err != nil {
			return err
		}
		if err := WritePicture(filepath.Join(folder, p.Name+"-difference.png"), Difference(p.Kept, p.Now)); err != nil {
			return err
		}
	}
	f, err := os.Create(filepath.Join(folder, "look-book.html"))
	if err != nil {
		return err
	}
	if err := sheet.Execute(f, pairs); err != nil {
		f.Close()
		return fmt.Errorf("look-book.html: %w", err)
	}
	return f.Close()
}

// WritePicture writes a picture as PNG, as small as it gets.
func WritePicture(file string, m image.Image) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(f, m); err != nil {
		f.Close()
		return fmt.Errorf("%s: %w", file, err)
	}
	return f.Close()
}

// ReadPicture reads a PNG.
func ReadPicture(file string) (image.Image, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return m, nil
}
