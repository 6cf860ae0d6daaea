using WireUp.Documents.Phases;

namespace WireUp.Documents.Drawings;

/// <summary>How a rail of each phase looks: by colour, by dash and by weight, so that any one of them is enough.</summary>
internal static class RailLook
{
    /// <summary>A rail that is only ground.</summary>
    public static readonly ShapeStyle Quiet = ShapeStyle.Outline(SceneColours.Quiet, 0.2);

    /// <summary>The style of a rail.</summary>
    public static ShapeStyle Of(RailPhase phase) => phase switch
    {
        RailPhase.A => ShapeStyle.Outline(SceneColours.Blue, 0.42),
        RailPhase.B => ShapeStyle.Outline(SceneColours.Vermilion, 0.42, DashKind.Long),
        RailPhase.Both => ShapeStyle.Outline(SceneColours.Ink, 0.8),
        RailPhase.Switched => ShapeStyle.Outline(SceneColours.Ink, 0.22),
        RailPhase.Unfed => ShapeStyle.Outline(SceneColours.Quiet, 0.28, DashKind.Short),
        _ => throw new ArgumentOutOfRangeException(nameof(phase), phase, "no look"),
    };

    /// <summary>What the legend calls it.</summary>
    public static string Words(RailPhase phase) => phase switch
    {
        RailPhase.A => "rail A",
        RailPhase.B => "rail B",
        RailPhase.Both => "rail A and B joined: a short",
        RailPhase.Switched => "follows the points",
        RailPhase.Unfed => "no feeder reaches it",
        _ => throw new ArgumentOutOfRangeException(nameof(phase), phase, "no words"),
    };
}
