using System.Collections.Immutable;
using Spectre.Console;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Output;

/// <summary>Why gaps are there, as a person reads it: what would happen if this one gap were closed.</summary>
internal static class GapText
{
    /// <summary>A table, one row a gap and rail, and a line that counts them.</summary>
    public static void Write(Terminal terminal, Layouts.Layout layout, ImmutableArray<GapPurpose> purposes)
    {
        Table table = new() { Border = TableBorder.Simple };
        table.AddColumn(new TableColumn("gap").NoWrap());
        table.AddColumn(new TableColumn("needed").NoWrap());
        table.AddColumn(new TableColumn("if it were closed"));
        foreach (GapPurpose purpose in purposes)
        {
            table.AddRow(Words.Plain(layout.Lengths.Retell(purpose.Gap.ToString())), Needed(purpose), Words.Plain(layout.Lengths.Retell(Reason(layout.Control, purpose))));
        }

        if (!purposes.IsEmpty)
        {
            terminal.Show(table);
        }

        if (layout.Wiring.Feeders.IsEmpty && !purposes.IsEmpty)
        {
            terminal.Markup("Nothing feeds this layout yet: what gaps keep apart is told once it has feeders.");
        }

        terminal.Markup(Words.Plain(Summary(purposes)));
    }

    /// <summary>The way between the two wires over the closed gap, each wire at its end; of a loop the way between the two rails.</summary>
    public static ImmutableArray<string> Path(GapPurpose purpose) => purpose.Meeting is { } meeting
        ? [meeting.From.ToString(), .. purpose.Path.Select(point => point.ToString()), meeting.To.ToString()]
        : [.. purpose.Path.Select(point => point.ToString()!)];

    private static string Needed(GapPurpose purpose) => purpose switch
    {
        { Use: GapUse.Undecided } => "not known",
        { IsNeeded: true } => "yes",
        { EitherOf.IsEmpty: false } => "one of",
        _ => "no",
    };

    private static string Reason(ControlSystem control, GapPurpose purpose)
    {
        string alone = purpose.Use switch
        {
            GapUse.Short => $"a short of {Wires(purpose)}",
            GapUse.Reversing => $"{Districts(purpose)} meet, one of which swaps polarity",
            GapUse.Loop => purpose.Path.IsEmpty
                ? "no way of feeding the track beyond it is right any more"
                : $"{purpose.Path[0]} and {purpose.Path[^1]}, the two rails of one track, are joined",
            GapUse.Districts => control == ControlSystem.Direct ? $"the cabs of {Districts(purpose)} are joined" : $"districts {Districts(purpose)} are one",
            GapUse.Switching => "track has current that is switched off now",
            GapUse.Unfed => "no harm: a rail beyond it has no feed, and would have one",
            GapUse.Around => "no difference: the rails conduct around it",
            GapUse.Nothing => "no harm that the file tells of; it may bound a detected block",
            GapUse.Undecided => "not found out within the limit of the search",
            _ => throw new ArgumentOutOfRangeException(nameof(purpose), purpose.Use, "not a use of a gap"),
        };
        string when = purpose.Turnouts.IsEmpty ? "" : $" with {string.Join(", ", purpose.Turnouts.Select(turnout => $"{turnout.Key} set {turnout.Value}"))}";
        string others = purpose.EitherOf.IsEmpty ? "" : $"; but not together with {string.Join(", ", purpose.EitherOf)}";
        return alone + when + others;
    }

    private static string Wires(GapPurpose purpose) => $"{purpose.Meeting!.From} and {purpose.Meeting.To}";

    private static string Districts(GapPurpose purpose) => $"{purpose.Meeting!.From.District} and {purpose.Meeting.To.District}";

    private static string Summary(ImmutableArray<GapPurpose> purposes)
    {
        int needed = purposes.Count(purpose => purpose.IsNeeded);
        int oneOf = purposes.Count(purpose => !purpose.IsNeeded && !purpose.EitherOf.IsEmpty);
        return $"{Words.Count(purposes.Length, "gap", "gaps")}, counted rail by rail: {needed} needed, {oneOf} of which one or the other is needed, {purposes.Length - needed - oneOf} not needed";
    }
}
