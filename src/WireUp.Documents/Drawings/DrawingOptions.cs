using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents;

/// <summary>How a plan is drawn.</summary>
public sealed record DrawingOptions
{
    /// <summary>From where.</summary>
    public DrawingView View { get; init; } = DrawingView.Above;

    /// <summary>
    /// Paper, lying unless the plan is clearly taller than wide; null for the smallest of A4 to A0 on which no label covers anything and few lie far away, and A0 when none is large enough.
    /// </summary>
    public PaperSize? Paper { get; init; }

    /// <summary>What is drawn besides the track.</summary>
    public DrawingLayers Layers { get; init; } = DrawingLayers.All;

    /// <summary>What is drawn under the track in place of the districts, turnouts in their first position; null for the districts.</summary>
    public DrawnFigure? Figure { get; init; }

    /// <summary>Findings to number on the plan, in the order of their list; empty for none.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>Places to mark with letters, for instance of suspected parts; drawn in place of the findings' numbers. Empty for none.</summary>
    public ImmutableArray<PlanMark> Marks { get; init; } = [];

    /// <summary>Proposals whose ids name the gaps; where an id is long or missing all gaps are numbered <c>G1</c>, <c>G2</c>, ….</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>The layout as it is built, so that new bus is named apart from built bus; null where nothing is.</summary>
    public Layout? Before { get; init; }

    /// <summary>Where the layout's pieces lie, so that several drawings of it work it out once; null to have it worked out.</summary>
    public PlanGeometry? Geometry { get; init; }

    /// <summary>Title, or null for the railway's name.</summary>
    public string? Title { get; init; }
}

/// <summary>A letter on the plan.</summary>
/// <param name="Letter">The letter.</param>
/// <param name="Place">Where, as results write places: <c>T1.points</c>, <c>loop@1.2 m</c>, <c>f3</c>.</param>
public sealed record PlanMark(string Letter, string Place);

/// <summary>A figure of the solved circuit that a plan can show along its track.</summary>
public enum DrawnFigure
{
    /// <summary>Volts under the design load, by their drop.</summary>
    Volts,

    /// <summary>Fault current of a coin across the rails, over the trip current of its district.</summary>
    Fault,
}

/// <summary>From where a plan is seen.</summary>
public enum DrawingView
{
    /// <summary>From above, as the track plan is drawn.</summary>
    Above,

    /// <summary>From below, as somebody sees it who lies under the benchwork: left and right have changed places.</summary>
    Below,
}

/// <summary>Parts of a drawing that can be left out.</summary>
[Flags]
public enum DrawingLayers
{
    /// <summary>Only the track.</summary>
    None = 0,

    /// <summary>Power districts as bands.</summary>
    Districts = 1,

    /// <summary>Bus and boosters.</summary>
    Bus = 2,

    /// <summary>Gaps.</summary>
    Gaps = 4,

    /// <summary>Feeders.</summary>
    Feeders = 8,

    /// <summary>Names of turnouts, crossings and sections.</summary>
    Names = 16,

    /// <summary>Numbers of findings.</summary>
    Findings = 32,

    /// <summary>Legend, title and scale.</summary>
    Legend = 64,

    /// <summary>Everything.</summary>
    All = Districts | Bus | Gaps | Feeders | Names | Findings | Legend,
}
