using WireUp.Layouts;
using WireUp.Planning.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>What makes reversing sections good, tested on plans of random layouts with the track graph and the rails alone.</summary>
public sealed class PlanRulesTests
{
    private const double Required = 1.1;
    private const double Buffer = 0.12;
    private const double WheelBase = 0.06;

    private static readonly Lazy<IReadOnlyList<(int Seed, Layout Layout, ReversingPlan Plan)>> Planned =
        new(() =>
        [
            .. Enumerable.Range(1, 80).Select(seed => Plan(seed, 2 + (seed % 7))),
            .. Enumerable.Range(1, 15).Select(seed => Plan(seed, 14 + seed)),
        ]);

    private static IEnumerable<(int Seed, Layout Layout, ReversingPlan Plan)> Plans =>
        Planned.Value.Where(one => one.Plan.Remains.IsEmpty && !one.Plan.Sections.IsEmpty);

    private static (int Seed, Layout Layout, ReversingPlan Plan) Plan(int seed, int turnouts)
    {
        Layout layout = RandomTrack.Of(seed, turnouts);
        return (seed, layout, ReversingPlanner.Plan(layout, cancellation: CancellationToken.None));
    }

    [Fact]
    public void No_rail_meets_its_opposite_and_every_section_is_bounded_and_balanced()
    {
        int sections = 0;
        foreach ((int seed, Layout layout, ReversingPlan plan) in Plans)
        {
            Layout cut = layout.Wired(wiring => wiring with { Gaps = plan.Gaps });
            Assert.True(ParityGraph.Of(new(cut)).IsBalanced(), $"seed {seed}");
            SplitTrack track = new(layout, plan);
            Assert.All(plan.Sections, section => Assert.Equal(section.Borders.Length, track.Borders(section).Length));
            sections += plan.Sections.Length;
        }

        Assert.True(sections >= 40, $"only {sections} sections");
    }

    [Fact]
    public void A_train_fits_between_any_two_gaps_that_want_opposite_polarity_and_the_plan_says_how_well()
    {
        int pairs = 0;
        foreach ((int seed, Layout layout, ReversingPlan plan) in Plans)
        {
            SplitTrack track = new(layout, plan);
            foreach (ReversingSection section in plan.Sections)
            {
                var borders = track.Borders(section);
                if (borders.Any(border => track.Agrees(border) is null))
                {
                    continue;
                }

                double[] drives =
                [
                    .. from one in borders
                       from other in borders
                       where track.Agrees(one) != track.Agrees(other)
                       let inside = track.Drive(section, one.Inside, other.Inside, inside: true)
                       where inside is not null
                       select inside!.Value,
                ];
                Assert.All(drives, metres => Assert.True(metres >= Required - 1e-6, $"seed {seed} {section.Name}: {metres}"));
                Assert.Equal(section.TurnsByReversing, drives.Length == 0);
                if (drives.Length > 0)
                {
                    Assert.Equal(drives.Min(), section.Drivable.Meters, 1e-3);
                    pairs += drives.Length / 2;
                }

                Assert.All(
                    from one in borders
                    from other in borders
                    where track.Agrees(one) != track.Agrees(other)
                    let outside = track.Drive(section, one.Outside, other.Outside, inside: false)
                    where outside is not null
                    select outside!.Value,
                    metres => Assert.True(metres >= Required - 1e-6, $"seed {seed} {section.Name}: {metres} outside"));
            }
        }

        Assert.True(pairs >= 40, $"only {pairs} pairs of gaps");
    }

    [Fact]
    public void Sections_do_not_touch()
    {
        int neighbours = 0;
        foreach ((int seed, Layout layout, ReversingPlan plan) in Plans.Where(one => one.Plan.Sections.Length > 1))
        {
            SplitTrack track = new(layout, plan);
            foreach (ReversingSection section in plan.Sections)
            {
                foreach (ReversingSection other in plan.Sections.Where(other => other != section))
                {
                    foreach (var border in track.Borders(section))
                    {
                        Assert.False(track.IsInside(other, border.Outside.Piece), $"seed {seed}");
                        double[] between =
                        [
                            .. track.Borders(other)
                                .Select(end => track.Drive(section, border.Outside, end.Outside, inside: false))
                                .OfType<double>(),
                        ];
                        Assert.All(between, metres => Assert.True(metres >= Buffer - 1e-6, $"seed {seed}: {metres}"));
                        neighbours += between.Length;
                    }
                }
            }
        }

        Assert.True(neighbours >= 8, $"only {neighbours} neighbours");
    }

    [Fact]
    public void Gaps_keep_a_wheel_base_from_every_turnout()
    {
        int gaps = 0;
        foreach ((int seed, Layout layout, ReversingPlan plan) in Plans)
        {
            LayoutIndex index = new(layout);
            foreach (GapPlace.InSection gap in plan.Gaps.Select(gap => gap.At).OfType<GapPlace.InSection>())
            {
                Piece.Section section = (Piece.Section)index.Piece(gap.Place.Section);
                double fromA = gap.Place.MetresFromA, fromB = section.Length.Meters - fromA;
                Assert.True(index.Opposite(section.End("a")) is null || fromA >= WheelBase - 1e-9, $"seed {seed} {gap}");
                Assert.True(index.Opposite(section.End("b")) is null || fromB >= WheelBase - 1e-9, $"seed {seed} {gap}");
                gaps++;
            }
        }

        Assert.True(gaps >= 100, $"only {gaps} gaps");
    }
}
