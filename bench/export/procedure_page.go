package export

import "html/template"

// procedureStyle holds the looks of the sheet: black on white, told apart by words
// and frames first, so that it reads on any printer; widths are shares of the
// page, so that it fits A4 and Letter.
const procedureStyle = `
@page { size: auto; margin: 12mm 11mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 190mm; padding: 4mm; font: 9.5pt/1.35 Helvetica, Arial, "DejaVu Sans", sans-serif; color: #111; background: #fff; }
article { break-after: page; }
article:last-child { break-after: auto; }
h1 { font-size: 17pt; margin: 0 0 1mm; }
h2 { font-size: 11.5pt; margin: 5mm 0 1.5mm; padding-bottom: .6mm; border-bottom: 1.2pt solid #111; break-after: avoid; }
p { margin: 1.2mm 0; overflow-wrap: anywhere; }
.head { display: flex; flex-wrap: wrap; gap: 0 6mm; margin: 0 0 2mm; }
.head span { overflow-wrap: anywhere; }
.head b, .name { font-weight: normal; color: #444; }
.caution { border: 1.2pt solid #111; padding: 1.5mm 2.5mm; font-weight: bold; break-inside: avoid; }
table { width: 100%; border-collapse: collapse; }
th, td { border: .5pt solid #666; padding: .8mm 1.3mm; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
th { background: #eee; font-weight: bold; overflow-wrap: normal; }
.word { overflow-wrap: normal; }
tr { break-inside: avoid; }
thead { display: table-header-group; }
.planned { font-weight: bold; }
.small { font-size: 8.2pt; display: block; }
.outside { outline: 1.6pt solid #111; outline-offset: -1.6pt; background: #ddd; }
.outside .small, .outside .word { font-weight: bold; }
.open { font-style: italic; color: #333; }
.fields { columns: 2; column-gap: 5mm; }
.field { display: flex; gap: 2mm; border-bottom: .5pt solid #999; padding: .5mm 0; break-inside: avoid; }
.field i, .field .name, .field .value { flex: 0 0 auto; overflow-wrap: anywhere; }
.field i { width: 17%; font-style: normal; font-size: 8pt; color: #444; }
.field .name { width: 34%; }
.field .value { flex: 1 1 0; min-width: 0; }
.joints { display: flex; flex-wrap: wrap; gap: 4mm; }
figure { margin: 0; width: 58mm; break-inside: avoid; }
figure svg { width: 58mm; height: auto; border: .5pt solid #666; display: block; }
figcaption { font-size: 8.2pt; overflow-wrap: anywhere; }
.plate { fill: #d7d7d7; stroke: #111; stroke-width: 1.2; }
.gap { fill: #fff; stroke: #111; stroke-width: 1; }
.bead { fill: #a9a9a9; stroke: #111; stroke-width: 1; }
.back { fill: #fff; stroke: #111; stroke-width: 1; stroke-dasharray: 4 3; }
svg text { font: 11px Helvetica, Arial, "DejaVu Sans", sans-serif; fill: #111; }
.sign th:first-child { width: 30%; }
.sign th:nth-child(2) { width: 26%; }
.sign th:nth-child(3) { width: 16%; }
.sign tbody td { height: 12mm; }
.sign { break-inside: avoid; }
footer { margin-top: 3mm; font-size: 8pt; color: #444; }
`

// procedureTemplate is the page; the template escapes every text.
var procedureTemplate = template.Must(template.New("procedure").Parse(`<!doctype html>
{{.Mark}}
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Welding procedure{{range .Sheets}} {{.ID}}{{end}}</title>
<style>{{.Style}}</style>
</head>
<body>
{{range $sheet := .Sheets}}<article>
<h1>Welding procedure {{.ID}}</h1>
<div class="head">{{range .Head}}<span><b>{{.Name}}:</b> {{.Value}}</span>{{end}}</div>
<div class="head">{{range $.Job}}<span><b>{{.Name}}:</b> {{.Value}}</span>{{end}}</div>
<p class="caution">{{$.Caution}}</p>

<h2>Planned passes against the procedure</h2>
<p>Passes held: <b>{{.Count.Passes}}</b>. Values outside: <b>{{.Count.Outside}}</b>. Items that the procedure does not state: <b>{{.Count.NotStated}}</b>; that the job does not state: <b>{{.Count.NotKnown}}</b>; these were not checked.</p>
{{with .NoRow}}<p class="caution">The procedure states nothing for: {{range $i, $n := .}}{{if $i}}, {{end}}{{$n}}{{end}}.</p>
{{end}}{{with .Passes}}<table>
<thead><tr><th>passes</th><th>set</th>{{range $sheet.Numbers}}<th>{{.}}</th>{{end}}</tr></thead>
<tbody>{{range .}}
<tr><td>{{.Passes}}<span class="small">{{.Row}}</span></td><td>{{.Set}}</td>{{range .Cells}}<td class="{{.Class}}"><span class="planned">{{.Planned}}</span><span class="small">{{.Allowed}}</span><span class="small">{{.Margin}}</span></td>{{end}}</tr>{{end}}
</tbody></table>
<p>Each number: as planned; what the procedure allows; how far it is from the nearer end.</p>
{{end}}
{{with .Items}}<h2>Everything else that the procedure can limit</h2>
<table>
<thead><tr><th>item</th><th>passes</th><th>planned</th><th>allowed</th><th>result</th></tr></thead>
<tbody>{{range .}}
<tr class="{{.Class}}"><td>{{.Item}}{{with .Note}}<span class="small">{{.}}</span>{{end}}</td><td>{{.Passes}}</td><td>{{.Planned}}</td><td>{{.Allowed}}</td><td class="word">{{.Margin}}</td></tr>{{end}}
</tbody></table>
{{end}}
{{with .Joints}}<h2>Joints</h2>
<div class="joints">{{range .}}<figure>{{.SVG}}<figcaption><b>{{.Seams}}</b>: {{.Caption}}{{if not .SVG}}; no section is known of it{{end}}</figcaption></figure>{{end}}</div>
{{end}}
<h2>What the procedure states: {{.Document}}</h2>
<div class="fields">{{range .Fields}}
<div class="field"><i>{{.Clause}}</i><span class="name">{{.Name}}</span>{{if .Stated}}<span class="value">{{.Value}}</span>{{else}}<span class="value open">not stated</span>{{end}}</div>{{end}}
</div>
{{with .Runs.Rows}}<h2>Its runs</h2>
<table>
<thead><tr>{{range $sheet.Runs.Heads}}<th>{{.}}</th>{{end}}</tr></thead>
<tbody>{{range .}}
<tr>{{range .}}<td>{{.}}</td>{{end}}</tr>{{end}}
</tbody></table>
{{end}}
{{with .Record}}<h2>Held against its qualification record</h2>
<table>
<thead><tr><th>item</th><th>permitted</th><th>procedure</th><th>by</th></tr></thead>
<tbody>{{range .}}
<tr class="{{.Class}}"><td>{{.Item}}</td><td>{{.Permitted}}</td><td class="word">{{.Verdict}}</td><td>{{.Source}}</td></tr>{{end}}
</tbody></table>
{{end}}
<h2>Signatures</h2>
<table class="sign">
<thead><tr><th></th><th>name</th><th>date</th><th>signature</th></tr></thead>
<tbody>
<tr><th>planned by</th><td></td><td></td><td></td></tr>
<tr><th>responsible welding coordinator</th><td></td><td></td><td></td></tr>
<tr><th>welded by (operator or setter)</th><td></td><td></td><td></td></tr>
</tbody></table>
<footer>Clauses and field names as read in previews, a public checklist and sample forms; the documents themselves decide. Values come from the job document and the plan made of it; nothing here was measured on the machine.</footer>
</article>
{{end}}</body>
</html>
`))
