namespace WireUp.Documents.Book;

/// <summary>What a book is made of, in its order, for writing it as something else than pages.</summary>
internal abstract record BookBlock
{
    private BookBlock()
    {
    }

    /// <summary>A section begins.</summary>
    public sealed record Section(string Title) : BookBlock;

    /// <summary>A heading within a section.</summary>
    public sealed record Subheading(string Text) : BookBlock;

    /// <summary>A paragraph, or a point of a list with its lead in bold.</summary>
    public sealed record Words(string Lead, string Text) : BookBlock;

    /// <summary>A table.</summary>
    public sealed record Rows(Table Table) : BookBlock;

    /// <summary>A page that is drawn, by its place among the pages of the flow.</summary>
    public sealed record Drawing(int Page, bool InContents) : BookBlock;

    /// <summary>Something drawn within the text.</summary>
    public sealed record Figure(SceneBox Box, System.Collections.Immutable.ImmutableArray<Shape> Shapes) : BookBlock;
}
