using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>Where wires of the bus are joined: a card for each terminal strip beside its label, and one line for every other point.</summary>
internal static class StripChapter
{
    public const string Title = "Terminal strips and bus points";
    private const double HeadingRoom = 60;

    public static void Write(BookFacts facts, BookFlow flow)
    {
        HashSet<string> listed = [.. facts.Wires.Select(wire => wire.Id)];
        ImmutableArray<BusMeeting> meetings =
        [
            .. BusMeetings.Of(facts.Layout, facts.Schedule, facts.Plan.Before).Where(meeting => meeting.Pairs.Any(pair => listed.Contains($"{pair.Name}/A"))),
        ];
        if (meetings.IsEmpty) return;
        ImmutableArray<BusMeeting> strips = [.. meetings.Where(meeting => meeting.HasStrip)];
        flow.SectionHere(Title, HeadingRoom + StripCards.RoomForFirst(strips));
        StripCards.Write(facts, strips, flow);
        WritePoints(facts, meetings, flow);
    }

    private static void WritePoints(BookFacts facts, ImmutableArray<BusMeeting> meetings, BookFlow flow)
    {
        flow.Subheading("What meets at each point of the bus");
        flow.Intro("Pairs by the names on their labels, leg A to leg A and leg B to leg B. At a tap the line that passes is opened, not cut; at an end tap it ends.");
        flow.Table(Table.Of(
            [
                Column.Names("Point"), new("District"), new("Joint"), Column.Wide("Arrives", 2), Column.Wide("Goes on", 2), Column.Wide("Feeders", 2),
                Column.TickBoxes("joined"), Column.TickBoxes("pulled"),
            ],
            meetings.Select(meeting => new Row(
                meeting.Point,
                facts.Drawn.Letters.Of(meeting.Bus.District),
                Joint(meeting),
                string.Join(", ", Names(meeting, PairWay.Breaker, PairWay.Arrives)),
                string.Join(", ", Names(meeting, PairWay.Leaves)),
                string.Join(", ", Names(meeting, PairWay.Feeder)),
                string.Empty,
                string.Empty))));
    }

    /// <summary>How wires are joined there.</summary>
    public static string Joint(BusMeeting meeting)
    {
        if (meeting.HasStrip) return $"strip, {Figure.Count(meeting.Pairs.Length, "way", "ways")}";
        if (meeting.Pairs[0].Way == PairWay.Breaker) return "breaker";
        if (meeting.Pairs.Where(pair => pair.Way is PairWay.Arrives or PairWay.Leaves).DistinctBy(pair => pair.Name).Count() > 1) return "terminal block";
        return meeting.Pairs.Any(pair => pair.Way == PairWay.Leaves) ? "tap" : "end tap";
    }

    /// <summary>Names of the pairs that come or go in some ways.</summary>
    public static IEnumerable<string> Names(BusMeeting meeting, params PairWay[] ways) =>
        meeting.Pairs.Where(pair => ways.Contains(pair.Way)).Select(pair => pair.Name.Length > 0 ? pair.Name : pair.OtherEnd);
}
