using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>Writes a book from top to bottom, page after page: headings, paragraphs, lists and tables that break where a page ends.</summary>
internal sealed class BookFlow(Sheet paper)
{
    private readonly List<BookPage> _pages = [];
    private readonly ImmutableArray<(string Section, int Page)>.Builder _contents = ImmutableArray.CreateBuilder<(string, int)>();
    private readonly ImmutableArray<BookBlock>.Builder _blocks = ImmutableArray.CreateBuilder<BookBlock>();
    private string _section = string.Empty;
    private string? _heading;
    private double _y;

    /// <summary>The pages so far.</summary>
    public IReadOnlyList<BookPage> Pages => _pages;

    /// <summary>The sections and the index of the page on which each begins.</summary>
    public ImmutableArray<(string Section, int Page)> Contents => _contents.ToImmutable();

    /// <summary>What has been written, in its order.</summary>
    public ImmutableArray<BookBlock> Blocks => _blocks.ToImmutable();

    /// <summary>The page being written.</summary>
    public BookPage Page => _pages[^1];

    /// <summary>Width of a line of text.</summary>
    public double Width => Page.Content.Width;

    private double Left => Page.Content.Left;

    /// <summary>Room left on the page being written.</summary>
    public double Room => Page.Content.Bottom - _y;

    /// <summary>Begins a section on a page of its own.</summary>
    public void Section(string title)
    {
        WriteHeading(0);
        _contents.Add((title, _pages.Count));
        Begin(title);
    }

    /// <summary>Begins a section on a page of its own that stands in the contents under another title, or not at all where that is empty.</summary>
    public void SectionOnPage(string inContents, string title)
    {
        WriteHeading(0);
        if (inContents.Length > 0) _contents.Add((inContents, _pages.Count));
        Begin(title);
    }

    /// <summary>Begins a section on the page being written when so much room is left, else on a new one.</summary>
    public void SectionHere(string title, double room)
    {
        WriteHeading(0);
        if (_pages.Count == 0 || Room < room || Page.Sheet != paper)
        {
            Section(title);
            return;
        }

        _contents.Add((title, _pages.Count - 1));
        _section = title;
        _blocks.Add(new BookBlock.Section(title));
        Space(7);
        Heading(title);
    }

    /// <summary>Adds a page that is drawn elsewhere; a title puts it into the contents.</summary>
    public void AddDrawn(BookPage page, bool inContents)
    {
        WriteHeading(0);
        if (inContents) _contents.Add((page.Section, _pages.Count));
        _blocks.Add(new BookBlock.Drawing(_pages.Count, inContents));
        Turn(page);
        _y = page.Content.Bottom;
    }

    /// <summary>Goes on at the top of the page that was added last.</summary>
    public void ToTop() => _y = Page.Content.Top;

    /// <summary>Lines of text, no more than so many; the last one ends with … where more would follow.</summary>
    public void Lines(string text, TextStyle style, int most)
    {
        IReadOnlyList<string> lines = TextFlow.Lines(text, Width, style);
        foreach ((int index, string line) in lines.Take(most).Index())
        {
            bool cut = index == most - 1 && lines.Count > most;
            Page.Write(cut ? TextFlow.Shorten(line, Width, style) : line, Left, Baseline(style), style);
            Advance(LineHeight(style));
        }
    }

    /// <summary>A heading within a section. It waits for what follows, to stand on one page with it.</summary>
    public void Subheading(string text)
    {
        WriteHeading(0);
        _blocks.Add(new BookBlock.Subheading(text));
        _heading = text;
    }

    /// <summary>A paragraph.</summary>
    public void Paragraph(string text, TextStyle? style = null)
    {
        WriteHeading(0);
        _blocks.Add(new BookBlock.Words(string.Empty, text));
        WriteLines(text, style ?? BookStyle.Body, Width);
        Space(2);
    }

    /// <summary>A paragraph that leads to a table and stays on one page with its beginning.</summary>
    public void Intro(string text)
    {
        double room = (TextFlow.Lines(text, Width, BookStyle.Body).Count * LineHeight(BookStyle.Body)) + 28;
        WriteHeading(room);
        Ensure(room);
        Paragraph(text);
    }

    /// <summary>A paragraph with a bold word or two before it, set in.</summary>
    public void Point(string lead, string text)
    {
        const double Indent = 5;
        _blocks.Add(new BookBlock.Words(lead, text));
        TextStyle body = BookStyle.Body;
        double leadWidth = lead.Length == 0 ? 0 : TextFlow.Width(lead + " ", BookStyle.Strong);
        IReadOnlyList<string> lines = LinesAfter(text, leadWidth, Width - Indent, body);
        double height = LineHeight(body) * lines.Count;
        WriteHeading(Math.Min(height, 40));
        Ensure(Math.Min(height, 40));
        Page.Add(new Shape.Circle("rules", new(Left + 1.6, _y + (0.53 * LineHeight(body))), 0.55, ShapeStyle.Area(SceneColours.Ink)));
        for (int i = 0; i < lines.Count; i++)
        {
            Ensure(LineHeight(body));
            double y = Baseline(body);
            if (i == 0 && lead.Length > 0) Page.Write(lead, Left + Indent, y, BookStyle.Strong);
            if (lines[i].Length > 0) Page.Write(lines[i], Left + Indent + (i == 0 ? leadWidth : 0), y, body);
            Advance(LineHeight(body));
        }

        Space(1.4);
    }

    /// <summary>Leaves room.</summary>
    public void Space(double millimetres) => _y += millimetres;

    /// <summary>Goes to the next page unless so much room is left.</summary>
    public void Ensure(double millimetres)
    {
        if (Room < millimetres && _y > Page.Content.Top + 1) NextPage();
    }

    /// <summary>A table; its head is repeated on every page, and in the first row of a page the first cell that is left out because it is the same as above.</summary>
    public void Table(Table table)
    {
        _blocks.Add(new BookBlock.Rows(table));
        TableSetter setter = new(table, Width);
        WriteHeading(setter.HeadHeight + 12);
        Ensure(setter.HeadHeight + 12);
        _y = setter.WriteHead(Page, Left, _y);
        SetRow[] rows = [.. setter.Rows()];
        SetRow? named = null;
        foreach ((int index, SetRow next) in rows.Index())
        {
            SetRow row = next;
            if (!row.IsSameAsAbove) named = row;
            // The last row never stands alone on a page.
            double needed = row.Height + (index == rows.Length - 2 ? rows[^1].Height : 0);
            if (needed > Room)
            {
                NextPage();
                _y = setter.WriteHead(Page, Left, _y);
                if (row.IsSameAsAbove && named is not null && !table.Columns[0].Ticks) row = row.Named(named);
            }

            _y = setter.WriteRow(Page, Left, _y, row, index % 2 == 1);
        }

        Page.Rule(Left, Left + Width, _y, BookStyle.Rule);
        Space(4);
    }

    /// <summary>Draws into a box of the page.</summary>
    public void Draw(double height, Action<BookPage, SceneBox> draw)
    {
        WriteHeading(height);
        Ensure(height);
        int before = Page.Shapes.Length;
        SceneBox box = new(Left, _y, Left + Width, _y + height);
        draw(Page, box);
        _blocks.Add(new BookBlock.Figure(box, Page.Shapes[before..]));
        Space(height);
    }

    /// <summary>Writes the heading that waits, if one does, on a page that has room for it and for so much below it.</summary>
    private void WriteHeading(double room)
    {
        const double Least = 34, OwnHeight = 11;
        if (_heading is not { } text) return;
        _heading = null;
        Ensure(Math.Max(Least, room + OwnHeight));
        Space(_y > Page.Content.Top + 1 ? 4 : 0);
        WriteLines(text, BookStyle.Subheading, Width);
        Space(1.2);
    }

    private static double LineHeight(TextStyle style) => style.SizeMillimetres * BookStyle.Leading;

    private double Baseline(TextStyle style) => _y + (0.5 * (LineHeight(style) - style.SizeMillimetres)) + (SceneText.Ascent * style.SizeMillimetres);

    private void Heading(string text)
    {
        WriteLines(text, BookStyle.Heading, Width);
        Space(1.5);
        Page.Rule(Left, Left + Width, _y, BookStyle.HeadRule);
        Space(4);
    }

    private void WriteLines(string text, TextStyle style, double width)
    {
        foreach (string line in TextFlow.Lines(text, width, style))
        {
            Ensure(LineHeight(style));
            Page.Write(line, Left, Baseline(style), style);
            Advance(LineHeight(style));
        }
    }

    /// <summary>Lines of which the first is shorter by what stands before it.</summary>
    private static List<string> LinesAfter(string text, double firstIndent, double width, TextStyle style)
    {
        List<string> lines = [];
        string first = string.Empty;
        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        int used = 0;
        while (used < words.Length && TextFlow.Width($"{first} {words[used]}".Trim(), style) <= width - firstIndent)
        {
            first = $"{first} {words[used]}".Trim();
            used++;
        }

        lines.Add(first);
        if (used < words.Length) lines.AddRange(TextFlow.Lines(string.Join(' ', words[used..]), width, style));
        return lines;
    }

    private void Begin(string title)
    {
        _section = title;
        _blocks.Add(new BookBlock.Section(title));
        Turn(new(paper, title));
        Heading(title);
    }

    private void Advance(double millimetres) => _y += millimetres;

    private void NextPage() => Turn(new(paper, _section));

    private void Turn(BookPage page)
    {
        _pages.Add(page);
        _y = page.Content.Top;
    }
}
