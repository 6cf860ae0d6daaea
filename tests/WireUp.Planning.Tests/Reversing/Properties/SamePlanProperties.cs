using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Properties;

/// <summary>What must not change a plan.</summary>
public sealed class SamePlanProperties
{
    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    private static (double Sections, double Gaps, bool Complete) Value(ReversingPlan plan) =>
        (plan.Objectives[0].Value, plan.Objectives[1].Value, plan.Remains.IsEmpty);

    private static void Holds(Func<Layout, int, Layout> change)
    {
        int withSections = 0;
        for (int seed = 1; seed <= 25; seed++)
        {
            Layout layout = RandomTrack.Of(seed, 2 + (seed % 5));
            ReversingPlan plan = Plan(layout);
            Assert.True(Value(plan) == Value(Plan(change(layout, seed))), $"seed {seed}");
            withSections += plan.Sections.IsEmpty ? 0 : 1;
        }

        Assert.True(withSections >= 12, $"only {withSections} with sections");
    }

    private static Layout Renamed(Layout layout, Func<string, string> name)
    {
        PieceId Id(PieceId id) => new(name(id.Name));
        TrackEnd End(TrackEnd end) => new(Id(end.Piece), end.Name);
        return layout with
        {
            Track = [.. layout.Track.Select<Piece, Piece>(piece => piece switch
            {
                Piece.Section section => section with { SectionId = Id(section.Id) },
                Piece.Turnout turnout => new Piece.Turnout(Id(turnout.Id), turnout.Hand, turnout.Frog),
                _ => throw new InvalidOperationException(),
            }).Select(piece => piece is Piece.Section section ? new Piece.Section(section.SectionId, section.Length) : piece)],
            Joints = [.. layout.Joints.Select(joint => new Joint(End(joint.First), End(joint.Second)))],
        };
    }

    [Fact]
    public void Renaming_pieces_changes_no_number() => Holds((layout, _) =>
        Renamed(layout, name => string.Concat(name.Reverse()) + "z"));

    [Fact]
    public void The_order_of_the_file_changes_nothing()
    {
        for (int seed = 1; seed <= 25; seed++)
        {
            Layout layout = RandomTrack.Of(seed, 2 + (seed % 5));
            Random random = new(seed);
            Layout shuffled = layout with
            {
                Track = [.. layout.Track.OrderBy(_ => random.Next())],
                Joints =
                [
                    .. layout.Joints.OrderBy(_ => random.Next())
                        .Select(joint => random.Next(2) == 0 ? joint : new Joint(joint.Second, joint.First)),
                ],
            };
            ReversingPlan plan = Plan(layout), other = Plan(shuffled);
            Assert.Equal(
                plan.Proposals.Select(proposal => (proposal.Id, proposal.At, proposal.Reason)),
                other.Proposals.Select(proposal => (proposal.Id, proposal.At, proposal.Reason)));
            Assert.Equal(plan.Phases, other.Phases);
        }
    }

    [Fact]
    public void Turning_sections_end_for_end_changes_no_number() => Holds((layout, seed) =>
    {
        TrackEnd Turn(TrackEnd end) => end.Piece.Name[0] == 's' && (end.Piece.Name[^1] + seed) % 2 == 0
            ? new(end.Piece, end.Name == "a" ? "b" : "a")
            : end;
        return layout with { Joints = [.. layout.Joints.Select(joint => new Joint(Turn(joint.First), Turn(joint.Second)))] };
    });

    [Fact]
    public void The_mirror_image_of_a_plan_changes_no_number() => Holds((layout, _) => layout with
    {
        Track = [.. layout.Track.Select<Piece, Piece>(piece => piece is Piece.Turnout { Hand: not TurnoutHand.Wye } turnout
            ? new Piece.Turnout(turnout.Id, turnout.Hand == TurnoutHand.Left ? TurnoutHand.Right : TurnoutHand.Left, turnout.Frog)
            : piece)],
    });

    [Fact]
    public void A_soldered_joint_in_the_middle_of_the_longest_section_changes_no_number() => Holds((layout, _) =>
    {
        Piece.Section old = layout.Track.OfType<Piece.Section>().MaxBy(section => section.Length)!;
        Length half = old.Length / 2;
        Piece.Section first = new(new(old.Id + "1"), half), second = new(new(old.Id + "2"), half);
        TrackEnd Moved(TrackEnd end) => end.Piece != old.Id ? end : end.Name == "a" ? first.End("a") : second.End("b");
        return layout with
        {
            Track = [.. layout.Track.Remove(old), first, second],
            Joints =
            [
                .. layout.Joints.Select(joint => new Joint(Moved(joint.First), Moved(joint.Second))),
                new Joint(first.End("b"), second.End("a")) { Kind = JointKind.Soldered },
            ],
        };
    });

    [Fact]
    public void A_plan_carried_out_needs_nothing_more()
    {
        int tried = 0;
        for (int seed = 1; seed <= 25; seed++)
        {
            Layout layout = RandomTrack.Of(seed, 2 + (seed % 5));
            ReversingPlan plan = Plan(layout);
            if (plan.Sections.IsEmpty || !plan.Remains.IsEmpty)
            {
                continue;
            }

            ReversingPlan again = Plan(Fed.With(layout, plan, new([], [])));
            Assert.True(again.Sections.IsEmpty && again.Remains.IsEmpty, $"seed {seed}: {string.Join(' ', again.Remains)}");
            tried++;
        }

        Assert.True(tried >= 12, $"only {tried} tried");
    }
}
