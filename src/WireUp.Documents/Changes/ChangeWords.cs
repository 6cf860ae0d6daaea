using WireUp.Layouts;

namespace WireUp.Documents.Changes;

/// <summary>Says what to do about a difference.</summary>
internal static class ChangeWords
{
    public static Change Of(LayoutDifference difference) =>
        new(Part(difference.Part), difference.Kind, difference.Name, Work(difference))
        {
            Before = difference.Before,
            After = difference.After,
            Difference = difference,
        };

    private static string Part(LayoutPart part) => part switch
    {
        LayoutPart.Setting => "setting",
        LayoutPart.Track => "track",
        LayoutPart.Joint => "joint",
        LayoutPart.Gap => "gap",
        LayoutPart.Supply => "supply",
        LayoutPart.Booster => "booster",
        LayoutPart.District => "district",
        LayoutPart.BusRun => "bus",
        LayoutPart.Switch => "switch",
        LayoutPart.Feeder => "feeder",
        _ => throw new ArgumentOutOfRangeException(nameof(part), part, "no word"),
    };

    private static string Work(LayoutDifference difference) => difference.Kind switch
    {
        DifferenceKind.Added => Add(difference),
        DifferenceKind.Removed => TakeAway(difference),
        DifferenceKind.Moved => "move",
        DifferenceKind.Renamed => "rename",
        DifferenceKind.Changed => Alter(difference.Part),
        _ => throw new ArgumentOutOfRangeException(nameof(difference), difference.Kind, "no word"),
    };

    private static string Add(LayoutDifference difference) => difference.Part switch
    {
        LayoutPart.Setting => "note",
        LayoutPart.Track or LayoutPart.BusRun => "lay",
        LayoutPart.Joint => "join",
        LayoutPart.Gap => difference.At is GapPlace.InSection ? "cut" : "insulate",
        LayoutPart.Feeder => "solder in",
        _ => "install",
    };

    private static string TakeAway(LayoutDifference difference) => difference.Part switch
    {
        LayoutPart.Setting => "note",
        LayoutPart.Track => "lift",
        LayoutPart.Joint => "part",
        LayoutPart.Gap => "close",
        _ => "take away",
    };

    private static string Alter(LayoutPart part) => part switch
    {
        LayoutPart.Setting => "note",
        LayoutPart.Track or LayoutPart.BusRun => "replace or alter",
        LayoutPart.Joint => "join anew",
        LayoutPart.Gap => "wire anew",
        LayoutPart.Feeder => "exchange or alter",
        _ => "exchange or set",
    };
}
