using System.Text.Json.Nodes;
using Spectre.Console;
using WireUp.Documents;
using WireUp.Layouts;

namespace WireUp.Output;

/// <summary>What changes from one layout to another, as a table and as JSON.</summary>
internal static class ChangeText
{
    private const int LongestDetails = 90;

    /// <summary>Writes every change and a line that counts them.</summary>
    public static void Write(Terminal terminal, ChangeList changes)
    {
        if (changes.Changes.IsEmpty)
        {
            terminal.Markup("Both layouts are the same.");
            return;
        }

        Table table = Tables.Ruled("", "part", "name", "do", "details");
        foreach (Change change in changes.Changes)
        {
            table.AddRow(change.Sign, change.Part, Words.Plain(change.Name), change.Work, Words.Plain(Shorten(change.Details)));
        }

        terminal.Show(table);
        terminal.Markup("N new, T taken away, M moved or made different, R renamed. Bare lengths are millimetres.");
        terminal.Markup(Words.Plain(string.Join(", ", changes.Counts.Select(count => $"{Of(count.Kind)} {count.Part}: {count.Count}"))));
        int wires = changes.NewWires.Wires.Length;
        terminal.Markup($"{Words.Count(wires, "wire", "wires")} to lay, {changes.Comparison.After.Lengths.Say(changes.NewWires.TotalToCut.Meters, 1)} to cut.");
    }

    /// <summary>What <c>compare --json</c> prints.</summary>
    public static JsonObject Json(ChangeList changes) => new()
    {
        ["same"] = changes.Changes.IsEmpty,
        ["changes"] = ResultJson.Array(changes.Changes, change => new JsonObject
        {
            ["part"] = change.Part,
            ["kind"] = Of(change.Kind),
            ["name"] = change.Name,
            ["do"] = change.Work,
            ["before"] = change.Before,
            ["after"] = change.After,
        }),
        ["counts"] = ResultJson.Array(changes.Counts, count => new JsonObject
        {
            ["part"] = count.Part,
            ["kind"] = Of(count.Kind),
            ["count"] = count.Count,
        }),
        ["wires-to-lay"] = changes.NewWires.Wires.Length,
        ["metres-to-cut"] = ResultJson.Number(changes.NewWires.TotalToCut.Meters),
    };

    private static string Of(DifferenceKind kind) => kind switch
    {
        DifferenceKind.Added => "new",
        DifferenceKind.Removed => "taken-away",
        DifferenceKind.Moved => "moved",
        DifferenceKind.Changed => "changed",
        DifferenceKind.Renamed => "renamed",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no word"),
    };

    private static string Shorten(string details) => details.Length <= LongestDetails ? details : $"{details[..LongestDetails]}…";
}
