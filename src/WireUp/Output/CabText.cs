using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Spectre.Console;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Output;

/// <summary>Where cabs meet, as a table and as JSON.</summary>
internal static class CabText
{
    /// <summary>A row for each pair of cabs that a train can join at a gap, and a line that counts them.</summary>
    public static void Write(Terminal terminal, Layouts.Layout layout, CabReport cabs)
    {
        if (cabs.Borders.IsEmpty)
        {
            terminal.Markup(layout.Control == ControlSystem.Command
                ? "Under command control there are no cabs to tell apart: boosters are in step."
                : "No gap has a cab on each side.");
            return;
        }

        Table table = new() { Border = TableBorder.Simple };
        table.AddColumn(new TableColumn("gap").NoWrap());
        table.AddColumn(new TableColumn("on one side").NoWrap());
        table.AddColumn(new TableColumn("on the other").NoWrap());
        table.AddColumn(new TableColumn("when"));
        foreach (CabBorder border in cabs.Borders)
        {
            foreach (CabPair pair in border.Meetings)
            {
                table.AddRow(Words.Plain(layout.Lengths.Retell(border.At.ToString()!)), Words.Plain(pair.Near), Words.Plain(pair.Far), Words.Plain(When(pair.When)));
            }
        }

        if (table.Rows.Count > 0)
        {
            terminal.Show(table);
        }

        int never = cabs.Borders.Count(border => border.Meetings.IsEmpty), always = cabs.Borders.Count(border => !border.HasCommonCab);
        terminal.Markup(Words.Plain(
            $"{Words.Count(cabs.Borders.Length, "gap", "gaps")} with a cab on each side: at {never} of them never two different ones, at {always} always"));
    }

    /// <summary>One gap as JSON.</summary>
    public static JsonObject Json(CabBorder border) => new()
    {
        ["at"] = border.At.ToString(),
        ["near"] = ResultJson.Array(border.Near, cab => Cab(("cab", cab.Booster), cab.When)),
        ["far"] = ResultJson.Array(border.Far, cab => Cab(("cab", cab.Booster), cab.When)),
        ["meetings"] = ResultJson.Array(border.Meetings, Meeting),
        ["common-cab"] = border.HasCommonCab,
    };

    private static JsonObject Meeting(CabPair pair)
    {
        JsonObject node = Cab(("near", pair.Near), pair.When);
        node.Insert(1, "far", pair.Far);
        return node;
    }

    private static JsonObject Cab((string Key, string Name) cab, ImmutableSortedDictionary<PieceId, string> when)
    {
        JsonObject turnouts = [];
        foreach ((PieceId owner, string position) in when)
        {
            turnouts[owner.Name] = position;
        }

        return new JsonObject { [cab.Key] = cab.Name, ["turnouts"] = turnouts };
    }

    private static string When(ImmutableSortedDictionary<PieceId, string> when) =>
        when.IsEmpty ? "always" : string.Join(", ", when.Select(setting => $"{setting.Key} set {setting.Value}"));
}
