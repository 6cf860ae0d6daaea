using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>Writes the tables of a book as comma-separated values, a list for each; boxes to tick are left out.</summary>
internal static class CsvLists
{
    public static ImmutableArray<BookList> Write(ImmutableArray<BookBlock> blocks)
    {
        ImmutableArray<BookList>.Builder lists = ImmutableArray.CreateBuilder<BookList>();
        (string section, string heading) = (string.Empty, string.Empty);
        foreach (BookBlock block in blocks)
        {
            (section, heading) = block switch
            {
                BookBlock.Section next => (next.Title, string.Empty),
                BookBlock.Subheading next => (section, next.Text),
                _ => (section, heading),
            };
            if (block is not BookBlock.Rows { Table: var table }) continue;
            int[] shown = [.. Enumerable.Range(0, table.Columns.Length).Where(i => !table.Columns[i].Ticks)];
            string csv = CsvTable.Write(shown.Select(i => table.Columns[i].Head), table.Rows.Select(row => shown.Select(i => row.Cells[i])));
            lists.Add(new($"{Figure.Text($"{lists.Count + 1:000}")}-{Name($"{section} {heading}")}", csv));
        }

        return lists.ToImmutable();
    }

    /// <summary>Words as a name of a file: small letters, figures and dashes, none at the ends, 60 at most.</summary>
    private static string Name(string words)
    {
        const int Most = 60;
        string dashed = string.Concat(words.ToLowerInvariant().Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-'));
        string name = string.Join('-', dashed.Split('-', StringSplitOptions.RemoveEmptyEntries));
        return name.Length <= Most ? name : name[..Most].TrimEnd('-');
    }
}
