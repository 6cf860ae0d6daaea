namespace WireUp.Layouts;

/// <summary>What a route names: a piece it runs through, an end it passes, or a place where it begins or ends.</summary>
public abstract record RouteStop
{
    private RouteStop(PieceId piece) => Piece = piece;

    /// <summary>The piece.</summary>
    public PieceId Piece { get; }

    /// <summary>The whole of a piece.</summary>
    /// <param name="Whole">The piece.</param>
    public sealed record Through(PieceId Whole) : RouteStop(Whole)
    {
        /// <summary><c>loop</c>.</summary>
        public override string ToString() => Piece.ToString();
    }

    /// <summary>An end, passed in either direction.</summary>
    /// <param name="End">The end.</param>
    public sealed record AtEnd(TrackEnd End) : RouteStop(End.Piece)
    {
        /// <summary><c>T1.points</c>.</summary>
        public override string ToString() => End.ToString();
    }

    /// <summary>A place of a section: there the route begins or ends; in the middle of a route it only names the section.</summary>
    /// <param name="Place">The place.</param>
    public sealed record AtPlace(TrackPlace Place) : RouteStop(Place.Section)
    {
        /// <summary><c>loop@1.25 m</c>.</summary>
        public override string ToString() => Place.ToString();
    }
}
