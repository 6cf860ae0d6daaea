using CsCheck;
using UnitsNet;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry.Properties;

public sealed class RandomTrackworkTests
{
    [Fact]
    public void Small_layouts_of_every_kind_are_drawn_with_joints_that_meet() => RandomLayouts().Sample(
        layout =>
        {
            PlanGeometry plan = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
            Assert.InRange(new PlanMeasures(layout, plan).WidestHole, 0, 1e-6);
            Assert.All(plan.Lines, line => Assert.True(line.Points.All(point => double.IsFinite(point.X) && double.IsFinite(point.Y))));
            Assert.NotEmpty(TestDrawing.Draw(layout, new() { Geometry = plan, Paper = PaperSize.A4 }).Shapes);
        },
        iter: 40,
        threads: 1,
        print: layout => string.Join("; ", layout.Joints.Select(joint => $"{joint.First} > {joint.Second}")));

    private static Gen<Layout> RandomLayouts() =>
        from kinds in Gen.Int[0, 10].Array[1, 4]
        from sections in Gen.Int[0, 4]
        from seed in Gen.Int[0, int.MaxValue]
        select Layout([.. kinds.Select(Piece)], sections, seed);

    private static Piece Piece(int kind, int number)
    {
        PieceId id = new($"P{number}");
        Length length = Length.FromMeters(0.3);
        return kind switch
        {
            0 => new Piece.Turnout(id, TurnoutHand.Left, FrogKind.Live),
            1 => new Piece.Turnout(id, TurnoutHand.Right, FrogKind.Isolated) { Curved = true, Feed = FrogFeed.Contact },
            2 => new Piece.Turnout(id, TurnoutHand.Wye, FrogKind.Insulated) { Stub = true },
            3 => new Piece.MultiTurnout(id, 3, FrogKind.Live),
            4 => new Piece.MultiTurnout(id, 5, FrogKind.Insulated) { PowerRouting = true },
            5 => new Piece.Crossing(id, Angle.FromDegrees(70), FrogKind.Live) { Feed = FrogFeed.Contact },
            6 => new Piece.Crossing(id, Angle.FromDegrees(25), FrogKind.Insulated),
            7 => new Piece.Slip(id, number % 2 == 0, FrogKind.Isolated) { Feed = FrogFeed.Contact },
            8 => new Piece.Scissors(id, FrogKind.Live),
            9 => new Piece.Turntable(id, 9, length),
            _ => new Piece.TransferTable(id, 3, length),
        };
    }

    // Joins ends at random, some to each other, some over sections; about a third stay open.
    private static Layout Layout(Piece[] trackwork, int sections, int seed)
    {
        Random random = new(seed);
        Piece[] track = [.. trackwork, .. Enumerable.Range(0, sections).Select(i => new Piece.Section(new($"s{i}"), Length.FromMeters(0.5 + random.NextDouble())))];
        TrackEnd[] ends = [.. track.SelectMany(piece => piece.Ends)];
        random.Shuffle(ends);
        return new()
        {
            Name = "random",
            LongestTrain = Length.FromMeters(1),
            ShortestPickup = Length.FromMeters(0.06),
            Track = [.. track],
            Joints = [.. Enumerable.Range(0, ends.Length / 3).Select(i => new Joint(ends[2 * i], ends[(2 * i) + 1]))],
        };
    }
}
