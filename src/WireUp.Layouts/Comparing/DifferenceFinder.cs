using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Comparing;

/// <summary>Compares two layouts part by part; pieces that are the same have the same name in both.</summary>
internal sealed class DifferenceFinder(Layout before, Layout after)
{
    private static readonly string[] NoSettings = ["wireup", "units", "lengths", "track", "joined", "joints", "wiring"];

    public IEnumerable<LayoutDifference> All() =>
    [
        .. Of(LayoutPart.Setting, Settings), .. Of(LayoutPart.Track, Track), .. Of(LayoutPart.Joint, Joints), .. new GapDifferences(before, after).All(),
        .. Of(LayoutPart.Supply, layout => layout.Wiring.Supplies.Select(supply => new Part(supply.Name, WiringText.Of(supply)))),
        .. Of(LayoutPart.Booster, layout => layout.Wiring.Boosters.Select(booster => new Part(booster.Name, WiringText.Of(booster)))),
        .. Of(LayoutPart.District, layout => layout.Wiring.Districts.Select(district => new Part(district.Name, WiringText.Of(district)))),
        .. Of(LayoutPart.BusRun, Runs),
        .. Of(LayoutPart.Switch, layout => layout.Wiring.Switches.Select(hand => new Part(hand.Name.Name, Snippet.Of(("positions", WiringText.Of(hand).Text))))),
        .. Of(LayoutPart.Feeder, Feeders),
    ];

    private IEnumerable<LayoutDifference> Of(LayoutPart kind, Func<Layout, IEnumerable<Part>> parts) =>
        PartDifferences.Of(kind, [.. parts(before)], [.. parts(after)]);

    private static IEnumerable<Part> Settings(Layout layout) => LayoutWriter.Parts(layout).Entries
        .Where(entry => !NoSettings.Contains(entry.Key))
        .Select(entry => new Part(entry.Key, entry.Value as Snippet.Map ?? Snippet.Of((string.Empty, entry.Value.Flow))));

    private static IEnumerable<Part> Track(Layout layout) => layout.Track.Select(piece => new Part(piece.Id.Name, PieceText.Of(piece)) { Piece = piece.Id });

    private static IEnumerable<Part> Joints(Layout layout) => layout.Joints.Select(joint =>
    {
        (TrackEnd first, TrackEnd second) = joint.First.CompareTo(joint.Second) <= 0 ? (joint.First, joint.Second) : (joint.Second, joint.First);
        return new Part($"{first} > {second}", JointText.Of(joint, first, layout.Control)) { At = new GapPlace.InJoint(first) };
    });

    /// <summary>Runs of bus; a run is the same from whichever end it is written.</summary>
    private static IEnumerable<Part> Runs(Layout layout) =>
        from bus in layout.Wiring.Buses
        from run in bus.Runs
        let ends = string.CompareOrdinal(run.From, run.To) <= 0 ? (run.From, run.To) : (run.To, run.From)
        select new Part($"{bus.District}: {run.From} > {run.To}", Snippet.Of(
            ("length", LengthText.Write(run.Length)),
            ("wire", run.Wire.ToString()),
            ("connectors", run.Connectors == 0 ? null : Numbers.Exact(run.Connectors)),
            ("spacing", bus.Spacing is { } spacing ? LengthText.Write(spacing) : null)))
        { Key = $"{bus.District}: {ends.Item1} > {ends.Item2}" };

    private static IEnumerable<Part> Feeders(Layout layout) => layout.Wiring.Feeders.Select(feeder =>
        new Part(feeder.Name, WiringText.Of(feeder, layout.Wiring.Boosters)) { At = new GapPlace.InSection(feeder.At), CanBeRenamed = true });
}

/// <summary>One part of a layout in the words of its file.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Text">What the file says of it.</param>
internal sealed record Part(string Name, Snippet.Map Text)
{
    /// <summary>What tells it from others of its kind; its name unless that can be written in several ways.</summary>
    public string Key { get; init; } = Name;

    public PieceId? Piece { get; init; }

    public GapPlace? At { get; init; }

    /// <summary>Whether one that says the same under another name is the same.</summary>
    public bool CanBeRenamed { get; init; }
}
