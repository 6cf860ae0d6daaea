using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Routes;

/// <summary>A way that a train can drive without changing direction.</summary>
/// <param name="Steps">The pieces passed, in order; at least one.</param>
public sealed record TrackRoute(ImmutableArray<RouteStep> Steps)
{
    /// <summary>Length in metres.</summary>
    public double LengthMetres => Steps.Sum(step => step.LengthMetres);

    /// <summary>The positions the route needs, in the order in which they are needed; a piece passed twice can need two.</summary>
    public IEnumerable<Setting> Settings =>
        Steps.Where(step => step.Position is not null).Select(step => new Setting(step.Piece, step.Position!)).Distinct();

    /// <summary>For people: <c>yard-1.b &gt; T3.diverging &gt; T3.points &gt; main</c>, joints left out.</summary>
    public override string ToString() => string.Join(" > ", Steps.Select(step => step.Piece.Name));
}

/// <summary>A piece that a route passes.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Enter">The end at which the train rolls in; null where the route begins within the piece.</param>
/// <param name="Leave">The end at which it rolls out; null where the route ends within the piece.</param>
/// <param name="LengthMetres">Metres of it that are driven; 0 for a piece without a length.</param>
public sealed record RouteStep(PieceId Piece, TrackEnd? Enter, TrackEnd? Leave, double LengthMetres)
{
    /// <summary>The position that the piece must stand in, or null where it does not matter.</summary>
    public string? Position { get; init; }

    /// <summary>Of a piece with places: where the driven part begins, in metres from end a (of a bridge: from its head); null for other pieces.</summary>
    public double? FromPlaceMetres { get; init; }

    /// <summary>Of a piece with places: where the driven part ends, as <see cref="FromPlaceMetres"/>; less than that when driven towards a.</summary>
    public double? ToPlaceMetres { get; init; }
}

/// <summary>What a search for a route came to.</summary>
public abstract record RouteSearch
{
    private RouteSearch()
    {
    }

    /// <summary>There is a way.</summary>
    /// <param name="Route">The shortest one.</param>
    public sealed record Found(TrackRoute Route) : RouteSearch;

    /// <summary>There is none.</summary>
    /// <param name="From">The last of the named stops that a train can get to in this order.</param>
    /// <param name="To">The one it cannot get to from there; the same where the route is stuck within its last piece.</param>
    /// <param name="NeedsReversal">Whether there would be a way between those two for a train that drives towards <paramref name="From"/> from elsewhere.</param>
    public sealed record NoWay(RouteStop From, RouteStop To, bool NeedsReversal) : RouteSearch
    {
        /// <summary>One sentence for a person.</summary>
        public string Message => From == To
            ? $"no train can drive through '{From}'"
            : NeedsReversal
                ? $"coming to '{From}' this way, no train can go on to '{To}' without changing direction"
                : $"no train can drive from '{From}' to '{To}' without changing direction";
    }
}
