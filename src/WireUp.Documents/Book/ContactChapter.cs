using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>What joins what in which position: frogs and their contacts, hand switches.</summary>
internal static class ContactChapter
{
    public const string Title = "Contacts and switches";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        ContactTable table = ContactTable.Of(facts.Layout);
        if (table.Contacts.IsEmpty && table.Settings.IsEmpty) return;
        flow.SectionHere(Title, 78);
        WriteContacts(table.Contacts, flow);
        WiringCards.Write(facts, table.Contacts, flow);
        WriteSettings(facts, table.Settings, flow);
    }

    private static void WriteContacts(ImmutableArray<MovingContact> contacts, BookFlow flow)
    {
        if (contacts.IsEmpty) return;
        flow.Subheading("Frogs, blades and rings");
        flow.Intro(
            "Power off, one position after the other: the meter must show what the line says, and must never show two lines of one conductor at "
            + "once. Rails at an end are named looking out of the piece.");
        flow.Table(Table.Of(
            [
                Column.Names("Conductor"), new("Joined by"), new("Moved by"), new("Terminal"), Column.Wide("In position"), Column.Wide("Joined to"),
                Column.TickBoxes("tested"),
            ],
            contacts.SelectMany(contact => contact.Throws.Select((row, i) => new Row(
                i == 0 ? contact.Name : string.Empty,
                i == 0 ? Words(contact.By) : string.Empty,
                i == 0 ? contact.MovedBy : string.Empty,
                contact.IsWired ? row.Name : string.Empty,
                PositionWords.List(row.Positions),
                row.Joins,
                string.Empty)))));
    }

    private static void WriteSettings(BookFacts facts, ImmutableArray<SettingEffect> settings, BookFlow flow)
    {
        if (settings.IsEmpty) return;
        HashSet<PieceId> switches = [.. facts.Wiring.Switches.Select(item => item.Name)];
        flow.Subheading("What each switch does");
        flow.Intro("Hand switches first, then contacts that move with trackwork. Use break-before-make contacts rated for the current of the breaker.");
        flow.Table(Table.Of(
            [Column.Names("Switch"), new("Kind"), new("Position"), Column.Wide("Does", 3), Column.TickBoxes("tested")],
            settings.Select((setting, i) => new Row(
                i == 0 || settings[i - 1].When.Owner != setting.When.Owner ? setting.When.Owner.Name : string.Empty,
                switches.Contains(setting.When.Owner) ? "hand switch" : "contact",
                setting.When.Position,
                setting.Effects.IsEmpty ? "connects nothing" : string.Join("; ", setting.Effects),
                string.Empty))));
    }

    internal static string Words(ContactKind kind) => kind switch
    {
        ContactKind.Blades => "blades",
        ContactKind.BladesAndContact => "blades and contact",
        ContactKind.Contact => "contact",
        ContactKind.Changeover => "electronic changeover",
        ContactKind.MovingRails => "moving rails",
        ContactKind.SplitRing => "split ring",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no words"),
    };
}

/// <summary>Positions in a line of text: runs of numbered ones as <c>t1 to t12</c>.</summary>
internal static class PositionWords
{
    /// <summary>The positions, in their order.</summary>
    public static string List(ImmutableArray<string> positions)
    {
        List<string> words = [];
        for (int i = 0; i < positions.Length;)
        {
            int last = i;
            while (last + 1 < positions.Length && Follows(positions[last], positions[last + 1])) last++;
            if (last - i >= 2) words.Add($"{positions[i]} to {positions[last]}");
            else words.AddRange(positions[i..(last + 1)]);
            i = last + 1;
        }

        return string.Join(", ", words);
    }

    private static bool Follows(string one, string next) =>
        Split(one) is var (letters, number) && Split(next) is var (others, following) && letters == others && following == number + 1;

    private static (string Letters, int Number)? Split(string position)
    {
        string letters = position.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
        return int.TryParse(position.AsSpan(letters.Length), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? (letters, number) : null;
    }
}
