using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>The same railway written down differently gets the same answer, for every kind of trackwork.</summary>
public sealed class SameAnswerTests
{
    private const int Layouts = 400;

    private static readonly ImmutableArray<(int Seed, Layout Layout, PolarityReport Report)> Cases =
        [.. Enumerable.Range(1, Layouts).Select(seed => (seed, RandomTrackwork.Of(seed))).Select(pair => (pair.seed, pair.Item2, Look(pair.Item2)))];

    [Fact]
    public void Other_names_change_nothing_but_names()
    {
        int met = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            PolarityReport renamed = Look(ChangedLayout.Renamed(layout));
            Assert.True(Counts(report) == Counts(renamed), $"seed {seed}");
            Assert.True(Meetings(report, setting => new(ChangedLayout.NameAfter(layout, setting.Owner), setting.Position))
                .SequenceEqual(Meetings(renamed)), $"seed {seed}");
            met += report.ByPosition.Length;
        }

        Assert.True(met > Layouts / 4, $"{met}");
    }

    [Fact]
    public void A_section_written_from_its_other_end_changes_nothing()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            foreach (Piece.Section section in layout.Track.OfType<Piece.Section>())
            {
                PolarityReport turned = Look(ChangedLayout.Turned(layout, section.Id));
                AssertSame(report, turned, $"seed {seed}, {section.Id}");
            }
        }
    }

    [Fact]
    public void A_section_written_as_two_changes_no_meeting()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            Piece.Section section = layout.Track.OfType<Piece.Section>().First(section => !section.LiftOut);
            PolarityReport split = Look(ChangedLayout.Split(layout, section.Id, seed % 2 == 0 ? 0.25 : 1.5));
            Assert.True(report.OddLoops.IsEmpty == split.OddLoops.IsEmpty, $"seed {seed}");
            if (report.OddLoops.IsEmpty)
            {
                Assert.True(Counts(report) with { Unfed = 0, Switched = 0, OneSided = 0 } == Counts(split) with { Unfed = 0, Switched = 0, OneSided = 0 }, $"seed {seed}");
                Assert.True(Meetings(report).SequenceEqual(Meetings(split)), $"seed {seed}");
            }
        }
    }

    [Fact]
    public void The_mirrored_plan_has_the_same_faults()
    {
        int mirrored = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases.Where(each => ChangedLayout.CanMirror(each.Layout)))
        {
            mirrored++;
            PolarityReport mirror = Look(ChangedLayout.Mirrored(layout));
            Assert.True(Stands(report) == Stands(mirror), $"seed {seed}");
            if (!Stands(report))
            {
                // Of ways as short as each other the first is told, and the mirror numbers legs from the other side.
                Assert.True(Counts(report) == Counts(mirror), $"seed {seed}: {Counts(report)} {Counts(mirror)}");
                Assert.True(Sizes(report).SequenceEqual(Sizes(mirror)), $"seed {seed}");
            }
        }

        Assert.True(mirrored > Layouts / 2);
    }

    [Fact]
    public void The_order_of_the_file_changes_no_fault_and_no_number_of_positions_that_a_short_takes()
    {
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            PolarityReport reordered = Look(ChangedLayout.Reordered(layout));
            Assert.True(Stands(report) == Stands(reordered), $"seed {seed}");
            if (!Stands(report))
            {
                Assert.True(report.ByPosition.IsEmpty == reordered.ByPosition.IsEmpty, $"seed {seed}");
                Assert.True(Sizes(report).FirstOrDefault() == Sizes(reordered).FirstOrDefault(), $"seed {seed}");
                Assert.True(report.Unfed.ToHashSet().SetEquals(reordered.Unfed), $"seed {seed}");
            }
        }
    }

    [Fact]
    public void A_dead_end_added_changes_no_meeting()
    {
        int lengthened = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            LayoutIndex index = new(layout);
            TrackEnd[] open = [.. layout.Track.SelectMany(piece => piece.Ends).Where(end => index.JointAt(end) is null)];
            if (open.Length > 0)
            {
                lengthened++;
                PolarityReport longer = Look(ChangedLayout.Lengthened(layout, open[seed % open.Length]));
                Assert.True(Counts(report) with { Unfed = 0, Switched = 0, OneSided = 0 } == Counts(longer) with { Unfed = 0, Switched = 0, OneSided = 0 }, $"seed {seed}");
                Assert.True(Meetings(report).SequenceEqual(Meetings(longer)), $"seed {seed}");
            }
        }

        Assert.True(lengthened > Layouts / 2);
    }

    /// <summary>
    /// Where something is wrong always, which of two faults is told follows from the order of the file; that something is, does not. Where nothing is,
    /// the answers are alike in full.
    /// </summary>
    private static void AssertSame(PolarityReport report, PolarityReport changed, string where)
    {
        Assert.True(Stands(report) == Stands(changed), where);
        if (!Stands(report))
        {
            Assert.True(Counts(report) == Counts(changed), $"{where}: {Counts(report)} {Counts(changed)}");
            Assert.True(Settings(report).SequenceEqual(Settings(changed)), where);
        }
    }

    private static PolarityReport Look(Layout layout) =>
        Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);

    private static bool Stands(PolarityReport report) =>
        report.OddLoops.Length + report.Exchanged.Length + report.FrogFaults.Length + report.Standing.Length > 0;

    /// <summary>
    /// Loops that only the rails show, and not a walk along the track, are told one after the other as found; of those it is only the same whether there
    /// are any.
    /// </summary>
    private static Count Counts(PolarityReport report) => new(
        report.OddLoops.Count(loop => loop.Walk is not null), report.Exchanged.Length, report.FrogFaults.Length, report.Standing.Length, report.ByPosition.Length, report.AcrossGaps.Length)
    {
        Unfed = report.Unfed.Length,
        Switched = report.Switched.Select(track => track.Section).Distinct().Count(),
        HasLoops = !report.OddLoops.IsEmpty,
        OneSided = report.OneSided.Length,
    };

    /// <summary>How many positions each short by position takes, ascending.</summary>
    private static IEnumerable<(MeetingKind, int)> Sizes(PolarityReport report) =>
        report.ByPosition.Select(meeting => (meeting.Kind, meeting.Turnouts.Count)).OrderBy(pair => pair.Count).ThenBy(pair => pair.Kind);

    /// <summary>Each meeting by position with its wires and settings, in order.</summary>
    private static IEnumerable<string> Meetings(PolarityReport report, Func<Setting, Setting>? rename = null) => report.ByPosition
        .Select(meeting => $"{meeting.Kind} {meeting.From} {meeting.To} "
            + string.Join(' ', meeting.Turnouts.Select(pair => new Setting(pair.Key, pair.Value)).Select(setting => $"{rename?.Invoke(setting) ?? setting}").Order(StringComparer.Ordinal)))
        .Order(StringComparer.Ordinal);

    /// <summary>Each meeting by position with its kind and settings, in order.</summary>
    private static IEnumerable<string> Settings(PolarityReport report) => report.ByPosition
        .Select(meeting => $"{meeting.Kind} {string.Join(' ', meeting.Turnouts.Select(pair => new Setting(pair.Key, pair.Value)))}")
        .Order(StringComparer.Ordinal);

    private sealed record Count(int OddLoops, int Exchanged, int FrogFaults, int Standing, int ByPosition, int AcrossGaps)
    {
        public int Unfed { get; init; }

        public int Switched { get; init; }

        public int OneSided { get; init; }

        public bool HasLoops { get; init; }
    }
}
