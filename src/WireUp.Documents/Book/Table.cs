using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>A table: its columns, and rows of as many cells.</summary>
internal sealed record Table(ImmutableArray<Column> Columns, ImmutableArray<Row> Rows)
{
    /// <summary>Makes a table of rows of words.</summary>
    public static Table Of(ImmutableArray<Column> columns, IEnumerable<Row> rows) => new(columns, [.. rows]);
}

/// <summary>A column of a table.</summary>
/// <param name="Head">What stands over it.</param>
internal sealed record Column(string Head)
{
    /// <summary>Figures stand to the right, words to the left.</summary>
    public TextAlign Align { get; init; } = TextAlign.Left;

    /// <summary>Share of the width that the other columns leave; 0 for a column as wide as its longest cell.</summary>
    public double Share { get; init; }

    /// <summary>Whether its words are bold.</summary>
    public bool Bold { get; init; }

    /// <summary>Whether it holds boxes to tick instead of words.</summary>
    public bool Ticks { get; init; }

    /// <summary>Whether its cells are broken into lines only when they are very long: figures and sizes with their units, and names.</summary>
    public bool KeepsTogether => Align == TextAlign.Right || Bold || IsSize;

    /// <summary>Whether it holds sizes of wire.</summary>
    public bool IsSize { get; init; }

    /// <summary>A column of figures.</summary>
    public static Column Figures(string head) => new(head) { Align = TextAlign.Right };

    /// <summary>A column of sizes of wire.</summary>
    public static Column Sizes(string head) => new(head) { IsSize = true };

    /// <summary>A column of words that takes what room is left.</summary>
    public static Column Wide(string head, double share = 1) => new(head) { Share = share };

    /// <summary>A column of names.</summary>
    public static Column Names(string head) => new(head) { Bold = true };

    /// <summary>A column of boxes to tick.</summary>
    public static Column TickBoxes(string head) => new(head) { Ticks = true, Align = TextAlign.Middle };
}

/// <summary>A row of a table.</summary>
/// <param name="Cells">One text a column; the text of a column of boxes is not shown: a box is, unless it is <see cref="NoBox"/>.</param>
internal sealed record Row(params ImmutableArray<string> Cells)
{
    /// <summary>Text of a cell that has no box to tick.</summary>
    public const string NoBox = "-";

    /// <summary>Whether the row stands out.</summary>
    public bool Strong { get; init; }
}
