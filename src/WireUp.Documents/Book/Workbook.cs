using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using static System.FormattableString;

namespace WireUp.Documents.Book;

/// <summary>
/// Writes the tables of a book as a workbook, a sheet for each section that has any. Words are stored as words and figures as numbers, never
/// as formulas. Source: ECMA-376, Office Open XML, parts 1 (SpreadsheetML) and 2 (packaging).
/// </summary>
internal static class Workbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006/";
    private const string SheetType = "application/vnd.openxmlformats-officedocument.spreadsheetml";

    /// <summary>A zip file must carry a time; the earliest it can say, so that the same book gives the same bytes.</summary>
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static byte[] Write(ImmutableArray<BookBlock> blocks)
    {
        ImmutableArray<(string Name, ImmutableArray<BookBlock> Blocks)> sheets = Sheets(blocks);
        using MemoryStream bytes = new();
        using (ZipArchive zip = new(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Part(zip, "[Content_Types].xml", xml => Types(xml, sheets.Length));
            Part(zip, "_rels/.rels", xml => Relationships(xml, [("officeDocument", "xl/workbook.xml")]));
            Part(zip, "xl/workbook.xml", xml => Book(xml, [.. sheets.Select(sheet => sheet.Name)]));
            Part(zip, "xl/_rels/workbook.xml.rels", xml => Relationships(xml, [.. Enumerable.Range(1, sheets.Length).Select(i => ("worksheet", Invariant($"worksheets/sheet{i}.xml")))]));
            foreach ((int index, (string Name, ImmutableArray<BookBlock> Blocks) sheet) in sheets.Index())
            {
                Part(zip, Invariant($"xl/worksheets/sheet{index + 1}.xml"), xml => SheetOf(xml, sheet.Blocks));
            }
        }

        return bytes.ToArray();
    }

    private static ImmutableArray<(string Name, ImmutableArray<BookBlock> Blocks)> Sheets(ImmutableArray<BookBlock> blocks)
    {
        List<(string Name, List<BookBlock> Blocks)> sheets = [];
        HashSet<string> names = new(StringComparer.OrdinalIgnoreCase);
        foreach (BookBlock block in blocks)
        {
            if (block is BookBlock.Section section) sheets.Add((section.Title, []));
            else if (sheets.Count > 0 && block is BookBlock.Subheading or BookBlock.Rows) sheets[^1].Blocks.Add(block);
        }

        return [.. sheets.Where(sheet => sheet.Blocks.Any(block => block is BookBlock.Rows)).Select(sheet => (Name(sheet.Name, names), sheet.Blocks.ToImmutableArray()))];
    }

    /// <summary>A name as a sheet may have it: 31 characters at most, none of []:*?/\, no apostrophe at its ends, none twice.</summary>
    private static string Name(string title, HashSet<string> taken)
    {
        string clean = string.Concat(SceneText.Clean(title).Select(letter => "[]:*?/\\'".Contains(letter, StringComparison.Ordinal) ? '-' : letter));
        for (int i = 1; ; i++)
        {
            string end = i == 1 ? string.Empty : Invariant($" {i}");
            string name = clean[..Math.Min(clean.Length, 31 - end.Length)] + end;
            if (taken.Add(name)) return name;
        }
    }

    private static void SheetOf(XmlWriter xml, ImmutableArray<BookBlock> blocks)
    {
        xml.WriteStartElement("worksheet", Main);
        int columns = blocks.OfType<BookBlock.Rows>().Max(rows => rows.Table.Columns.Length);
        xml.WriteStartElement("cols", Main);
        Element(xml, Main, "col", ("min", "1"), ("max", Invariant($"{columns}")), ("width", "22"), ("customWidth", "1"));
        xml.WriteEndElement();
        xml.WriteStartElement("sheetData", Main);
        int row = 0;
        foreach (BookBlock block in blocks)
        {
            if (block is BookBlock.Subheading heading) WriteRow(xml, ++row, [(heading.Text, false)]);
            if (block is not BookBlock.Rows { Table: var table }) continue;
            WriteRow(xml, ++row, [.. table.Columns.Select(column => (column.Head, false))]);
            foreach (Row cells in table.Rows) WriteRow(xml, ++row, [.. table.Columns.Zip(cells.Cells, (column, cell) => (column.Ticks ? string.Empty : cell, column.Align == TextAlign.Right))]);
            row++;
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void WriteRow(XmlWriter xml, int number, ImmutableArray<(string Words, bool IsFigure)> cells)
    {
        xml.WriteStartElement("row", Main);
        xml.WriteAttributeString("r", Invariant($"{number}"));
        foreach ((int column, (string words, bool isFigure)) in cells.Index())
        {
            if (words.Length == 0) continue;
            xml.WriteStartElement("c", Main);
            xml.WriteAttributeString("r", Invariant($"{Letters(column)}{number}"));
            if (isFigure && double.TryParse(words, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out double figure))
            {
                xml.WriteElementString("v", Main, Invariant($"{figure}"));
            }
            else
            {
                xml.WriteAttributeString("t", "inlineStr");
                xml.WriteStartElement("is", Main);
                xml.WriteStartElement("t", Main);
                xml.WriteAttributeString("xml", "space", null, "preserve");
                xml.WriteString(SceneText.Clean(words));
                xml.WriteEndElement();
                xml.WriteEndElement();
            }

            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static string Letters(int column) => column < 26 ? ((char)('A' + column)).ToString() : $"{Letters((column / 26) - 1)}{(char)('A' + (column % 26))}";

    private static void Types(XmlWriter xml, int sheets)
    {
        xml.WriteStartElement("Types", Package + "content-types");
        Element(xml, Package + "content-types", "Default", ("Extension", "rels"), ("ContentType", "application/vnd.openxmlformats-package.relationships+xml"));
        Element(xml, Package + "content-types", "Default", ("Extension", "xml"), ("ContentType", "application/xml"));
        Element(xml, Package + "content-types", "Override", ("PartName", "/xl/workbook.xml"), ("ContentType", $"{SheetType}.sheet.main+xml"));
        for (int i = 1; i <= sheets; i++) Element(xml, Package + "content-types", "Override", ("PartName", Invariant($"/xl/worksheets/sheet{i}.xml")), ("ContentType", $"{SheetType}.worksheet+xml"));
        xml.WriteEndElement();
    }

    private static void Relationships(XmlWriter xml, ImmutableArray<(string Kind, string Target)> targets)
    {
        xml.WriteStartElement("Relationships", Package + "relationships");
        foreach ((int index, (string kind, string target)) in targets.Index()) Element(xml, Package + "relationships", "Relationship", ("Id", Invariant($"r{index + 1}")), ("Type", $"{Relations}/{kind}"), ("Target", target));
        xml.WriteEndElement();
    }

    private static void Book(XmlWriter xml, ImmutableArray<string> names)
    {
        xml.WriteStartElement("workbook", Main);
        xml.WriteStartElement("sheets", Main);
        foreach ((int index, string name) in names.Index())
        {
            xml.WriteStartElement("sheet", Main);
            xml.WriteAttributeString("name", name);
            xml.WriteAttributeString("sheetId", Invariant($"{index + 1}"));
            xml.WriteAttributeString("r", "id", Relations, Invariant($"r{index + 1}"));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    /// <summary>An element without content.</summary>
    private static void Element(XmlWriter xml, string space, string name, params ImmutableArray<(string Name, string Value)> attributes)
    {
        xml.WriteStartElement(name, space);
        foreach ((string key, string value) in attributes) xml.WriteAttributeString(key, value);
        xml.WriteEndElement();
    }

    private static void Part(ZipArchive zip, string name, Action<XmlWriter> write)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = NoTime;
        using Stream stream = entry.Open();
        using XmlWriter xml = XmlWriter.Create(stream, new() { Encoding = new UTF8Encoding(false), CloseOutput = false });
        xml.WriteStartDocument(standalone: true);
        write(xml);
    }
}
