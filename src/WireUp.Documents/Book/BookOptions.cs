using UnitsNet;
using WireUp.Documents.Geometry;

namespace WireUp.Documents;

/// <summary>How a wiring book is made.</summary>
public sealed record BookOptions
{
    /// <summary>Paper.</summary>
    public PaperSize Paper { get; init; } = PaperSize.A4;

    /// <summary>The date to print, as the person writes it, or null for none; never the clock's.</summary>
    public string? Date { get; init; }

    /// <summary>Where the planned layout's pieces lie, when it has been worked out already; null to have it worked out.</summary>
    public PlanGeometry? Geometry { get; init; }

    /// <summary>Title, or null for the railway's name.</summary>
    public string? Title { get; init; }

    /// <summary>Colours and allowances of the wiring schedule, or null for the usual ones in the layout's units.</summary>
    public ScheduleOptions? Schedule { get; init; }

    /// <summary>Length of a new coil of wire, or null for 25 m or 100 ft; common shop lengths are 10, 25 and 100 m, and 25, 50 and 100 ft.</summary>
    public Length? Coil { get; init; }
}
