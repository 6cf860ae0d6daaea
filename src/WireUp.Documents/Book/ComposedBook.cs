using System.Collections.Immutable;
using WireUp.Documents.Book;

namespace WireUp.Documents;

/// <summary>A wiring book worked out once, to be written as PDF, as one page for a browser, or as a workbook for a spreadsheet.</summary>
public sealed class ComposedBook
{
    private readonly string _title;
    private readonly ImmutableArray<BookBlock> _blocks;

    internal ComposedBook(string title, ImmutableArray<Scene> pages, ImmutableArray<BookBlock> blocks) => (_title, Pages, _blocks) = (title, pages, blocks);

    /// <summary>The pages.</summary>
    public ImmutableArray<Scene> Pages { get; }

    /// <summary>The book as a PDF file.</summary>
    public byte[] ToPdf() => PdfScene.Write(Pages, new() { Title = _title });

    /// <summary>
    /// The book as one HTML file that needs nothing else: its drawings are in it, it loads nothing and runs nothing. Boxes can be ticked; they are not kept.
    /// </summary>
    public string ToHtml() => HtmlBook.Write(_title, Pages, _blocks);

    /// <summary>Every table of the book as an Office Open XML workbook, a sheet for each section. The same book gives the same bytes.</summary>
    public byte[] ToXlsx() => Workbook.Write(_blocks);

    /// <summary>Every table of the book as comma-separated values, in its order.</summary>
    public ImmutableArray<BookList> ToLists() => CsvLists.Write(_blocks);
}

/// <summary>A table of a book.</summary>
/// <param name="Name">Its number and where it stands, fit for the name of a file: <c>014-shopping-list</c>.</param>
/// <param name="Csv">Comma-separated values under one line of names; no cell is taken for a formula.</param>
public sealed record BookList(string Name, string Csv);
