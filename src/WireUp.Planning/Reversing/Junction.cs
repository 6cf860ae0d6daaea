using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>
/// Trackwork of which more than two ends hang together in polarity: a turnout, a slip, a scissors crossover, a crossing with live
/// frogs, the roads of a transfer table. Its ports are these ends, in the order of the piece.
/// </summary>
/// <param name="Index">Its index in the map.</param>
/// <param name="Piece">The piece.</param>
/// <param name="Ends">Names of the ends, one a port.</param>
/// <param name="Tips">The tip of the run at each port.</param>
internal sealed record Junction(int Index, Piece Piece, ImmutableArray<string> Ends, ImmutableArray<Tip> Tips)
{
    /// <summary>Frog number taken where a piece names none.</summary>
    private const double UsualFrogNumber = 6;

    private readonly ImmutableArray<ImmutableArray<int>> _ways = [.. Ends.Select(_ => ImmutableArray<int>.Empty)];

    /// <summary>How trains drive through the piece, as the trackwork table says.</summary>
    public required ImmutableArray<DrivableWay> Ways
    {
        init => _ways =
        [
            .. Ends.Select(end => value
                .SelectMany(way => way.From == end ? [way.To] : way.To == end ? [way.From] : Array.Empty<string>())
                .Distinct()
                .Select(other => Ends.IndexOf(other))
                .Order()
                .ToImmutableArray()),
        ];
    }

    /// <summary>The name of the piece.</summary>
    public PieceId Id => Piece.Id;

    /// <summary>Ports a train can leave by when it entered at a port.</summary>
    public ImmutableArray<int> WaysFrom(int port) => _ways[port];

    /// <summary>Whether a way goes straight on: no diverging leg, slip road or crossover. A wye and a moving bridge have no such way.</summary>
    public bool IsMainWay(int from, int to) => Piece switch
    {
        Piece.Turnout { Hand: TurnoutHand.Wye } => false,
        Piece.Turnout => IsEither(from, to, "through"),
        Piece.MultiTurnout turnout => turnout.LegCount % 2 == 1 && IsEither(from, to, turnout.Legs.ElementAt(turnout.LegCount / 2)),
        Piece.Crossing or Piece.Slip or Piece.Scissors => Ends[from][0] == Ends[to][0],
        _ => false,
    };

    /// <summary>Whether a port is only reached from a port that leads straight on elsewhere, or to another like it: each leg of a wye.</summary>
    public bool IsDiverging(int port) => WaysFrom(port).All(other => WaysFrom(other).Length > 1 && !IsMainWay(port, other));

    /// <summary>
    /// One unit in how many the track at a port leaves that beside it; null where no track leaves beside it (the points of a turnout) or
    /// where tracks are clear of each other already.
    /// </summary>
    public double? NumberBeside(int port) => Piece switch
    {
        Piece.Turnout turnout when port != 0 => turnout.Number ?? UsualFrogNumber,
        Piece.MultiTurnout when port != 0 => UsualFrogNumber,
        Piece.Crossing crossing => NumberOf(crossing.Angle.Radians),
        Piece.Slip { Angle: { } angle } => NumberOf(angle.Radians),
        Piece.Slip => UsualFrogNumber,
        _ => null,
    };

    /// <summary>Driven length from end to end in metres; zero when the layout gives none.</summary>
    public double LengthMetres => Piece.WayMetres;

    private bool IsEither(int from, int to, string end) => Ends[from] == end || Ends[to] == end;

    private static double NumberOf(double radians) => radians > 0 ? 1 / (2 * Math.Tan(radians / 2)) : UsualFrogNumber;
}
