using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;

namespace WireUp.Documents.Book;

/// <summary>Writes a book as one HTML page. Every name is escaped; the page may load and run nothing.</summary>
internal static class HtmlBook
{
    private const string Style = """
        body { font: 16px/1.45 Verdana, sans-serif; max-width: 70em; margin: 1em auto; padding: 0 1em; color: #202020; background: #fff }
        h1, h2 { border-bottom: 1px solid #202020 } h2 { margin-top: 2.2em }
        .table { overflow-x: auto } table { border-collapse: collapse; font-size: .85em; width: 100% }
        th { text-align: left; color: #555; border-bottom: 1px solid #202020 } td, th { padding: .3em .6em; vertical-align: top }
        tr:nth-child(even) td { background: #f4f2ed } .figure { text-align: right } .name { font-weight: bold }
        input { width: 1.4em; height: 1.4em } svg { width: 100%; height: auto; border: 1px solid #ccc } .part svg { border: 0 }
        @media print { h2 { break-before: page } tr { break-inside: avoid } }
        """;

    public static string Write(string title, ImmutableArray<Scene> pages, ImmutableArray<BookBlock> blocks)
    {
        StringBuilder html = new();
        html.Append("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<title>{Text(title)}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n<h1>{Text(title)}</h1>\n");
        html.Append(CultureInfo.InvariantCulture, $"<div class=\"part\">{SvgScene.Write(pages[0])}</div>\n");
        WriteContents(html, pages, blocks);
        int section = 0;
        foreach (BookBlock block in blocks) Write(html, pages, block, ref section);
        return html.Append("</body>\n</html>\n").ToString();
    }

    private static void WriteContents(StringBuilder html, ImmutableArray<Scene> pages, ImmutableArray<BookBlock> blocks)
    {
        html.Append("<nav><ul>\n");
        foreach ((int index, string title) in blocks.Select(block => TitleOf(block, pages)).OfType<string>().Index())
        {
            html.Append(CultureInfo.InvariantCulture, $"<li><a href=\"#s{index}\">{Text(title)}</a></li>\n");
        }

        html.Append("</ul></nav>\n");
    }

    private static string? TitleOf(BookBlock block, ImmutableArray<Scene> pages) => block switch
    {
        BookBlock.Section section => section.Title,
        BookBlock.Drawing { InContents: true } drawing => SectionOf(pages[drawing.Page + 1]),
        _ => null,
    };

    /// <summary>The scene of a page is titled "railway: section".</summary>
    private static string SectionOf(Scene page) => page.Title[(page.Title.LastIndexOf(": ", StringComparison.Ordinal) + 2)..];

    private static void Write(StringBuilder html, ImmutableArray<Scene> pages, BookBlock block, ref int section)
    {
        if (TitleOf(block, pages) is { } title) html.Append(CultureInfo.InvariantCulture, $"<h2 id=\"s{section++}\">{Text(title)}</h2>\n");
        switch (block)
        {
            case BookBlock.Subheading heading:
                html.Append(CultureInfo.InvariantCulture, $"<h3>{Text(heading.Text)}</h3>\n");
                break;
            case BookBlock.Words words:
                html.Append(CultureInfo.InvariantCulture, $"<p>{(words.Lead.Length > 0 ? $"<b>{Text(words.Lead)}</b> " : string.Empty)}{Text(words.Text)}</p>\n");
                break;
            case BookBlock.Rows rows:
                WriteTable(html, rows.Table);
                break;
            case BookBlock.Drawing drawing:
                html.Append(SvgScene.Write(pages[drawing.Page + 1]));
                break;
            case BookBlock.Figure figure:
                html.Append(CultureInfo.InvariantCulture, $"<div class=\"part\">{SvgScene.Write(Moved(figure))}</div>\n");
                break;
            default:
                break;
        }
    }

    private static void WriteTable(StringBuilder html, Table table)
    {
        html.Append("<div class=\"table\"><table><thead><tr>");
        foreach (Column column in table.Columns) html.Append(CultureInfo.InvariantCulture, $"<th{Class(column)}>{Text(column.Head)}</th>");
        html.Append("</tr></thead><tbody>\n");
        foreach (Row row in table.Rows)
        {
            html.Append("<tr>");
            foreach ((Column column, string cell) in table.Columns.Zip(row.Cells)) html.Append(CultureInfo.InvariantCulture, $"<td{Class(column)}>{Cell(column, cell)}</td>");
            html.Append("</tr>\n");
        }

        html.Append("</tbody></table></div>\n");
    }

    private static string Class(Column column) => column.Align == TextAlign.Right ? " class=\"figure\"" : column.Bold ? " class=\"name\"" : string.Empty;

    private static string Cell(Column column, string cell) =>
        !column.Ticks ? Text(cell) : cell == Row.NoBox ? string.Empty : $"<input type=\"checkbox\" aria-label=\"{Text(column.Head)}\">";

    /// <summary>The part of the page that a figure fills, as a scene of its own.</summary>
    private static Scene Moved(BookBlock.Figure figure)
    {
        (double x, double y) = (-figure.Box.Left, -figure.Box.Top);
        ScenePoint Move(ScenePoint point) => new(point.X + x, point.Y + y);
        return new(figure.Box.Width, figure.Box.Height, [.. figure.Shapes.Select<Shape, Shape>(shape => shape switch
        {
            Shape.Line line => line with { Points = [.. line.Points.Select(Move)] },
            Shape.Strokes strokes => strokes with { Points = [.. strokes.Points.Select(Move)] },
            Shape.Circle circle => circle with { Centre = Move(circle.Centre) },
            Shape.Text text => text with { At = Move(text.At) },
            _ => throw new System.Diagnostics.UnreachableException($"no such shape as {shape}"),
        })]);
    }

    private static string Text(string text) => WebUtility.HtmlEncode(SceneText.Clean(text));
}
