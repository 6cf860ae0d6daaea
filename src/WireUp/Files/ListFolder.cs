using System.Collections.Immutable;
using WireUp.Documents;

namespace WireUp.Files;

/// <summary>The lists of a book in a folder, a CSV file each.</summary>
internal static class ListFolder
{
    /// <summary>Writes them, and says how many there are.</summary>
    public static int Write(DirectoryInfo folder, ComposedBook book)
    {
        ImmutableArray<BookList> lists = book.ToLists();
        foreach (BookList list in lists) LayoutFiles.Write(new(Path.Combine(folder.FullName, $"{list.Name}.csv")), list.Csv);
        return lists.Length;
    }
}
