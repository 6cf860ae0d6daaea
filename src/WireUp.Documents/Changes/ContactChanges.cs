using WireUp.Documents.Book;
using WireUp.Layouts;

namespace WireUp.Documents.Changes;

/// <summary>Contacts that are to be wired, wired anew or taken away.</summary>
internal static class ContactChanges
{
    public static IEnumerable<Change> Of(LayoutComparison comparison)
    {
        Dictionary<string, string> before = Wired(comparison.Before), after = Wired(comparison.After);
        foreach ((string name, string words) in before.Where(contact => !after.ContainsKey(contact.Key)))
        {
            yield return new("contact", DifferenceKind.Removed, name, "take away") { Before = words };
        }

        foreach ((string name, string words) in after)
        {
            if (!before.TryGetValue(name, out string? old)) yield return new("contact", DifferenceKind.Added, name, "wire") { After = words };
            else if (old != words) yield return new("contact", DifferenceKind.Changed, name, "wire anew") { Before = old, After = words };
        }
    }

    private static Dictionary<string, string> Wired(Layout layout) => ContactTable.Of(layout).Contacts
        .Where(contact => contact.IsWired).ToDictionary(contact => contact.Name, Words);

    private static string Words(MovingContact contact) =>
        $"{ContactChapter.Words(contact.By)} moved by {contact.MovedBy}: {string.Join("; ", contact.Throws.Select(row => $"{PositionWords.List(row.Positions)} to {row.Joins}"))}";
}
