namespace WireUp.Layouts;

/// <summary>One point of one conductor that the tip of a meter's lead can touch. The cases are nested and the list of them is closed.</summary>
public abstract record ReadingPoint
{
    private ReadingPoint()
    {
    }

    /// <summary>A rail at a place along a section or bridge.</summary>
    /// <param name="Place">The place.</param>
    /// <param name="Side">The rail, looking from end a towards end b.</param>
    public sealed record AtPlace(TrackPlace Place, RailSide Side) : ReadingPoint
    {
        /// <summary><c>loop@1 m/left</c>.</summary>
        public override string ToString() => $"{Place}/{RailSides.Word(Side)}";
    }

    /// <summary>A rail at an end of a piece, on the piece's own side of the joint.</summary>
    /// <param name="Rail">The rail, looking out of the end.</param>
    public sealed record AtEnd(RailEnd Rail) : ReadingPoint
    {
        /// <summary><c>loop.b/left</c>.</summary>
        public override string ToString() => Rail.ToString();
    }

    /// <summary>A frog.</summary>
    /// <param name="Piece">The turnout or crossing.</param>
    /// <param name="Name">The frog's name in the table of trackwork: <c>frog</c>; of a piece with several <c>frog-west</c> and the like.</param>
    public sealed record AtFrog(PieceId Piece, string Name) : ReadingPoint
    {
        /// <summary><c>T1/frog</c>.</summary>
        public override string ToString() => $"{Piece}/{Name}";
    }

    /// <summary>
    /// The bare end of a feeder's wire where it taps the bus, on the wire's side of the tap: to the bus point from here is the tap alone,
    /// to the rail from here the wire and its solder.
    /// </summary>
    /// <param name="Feeder">The feeder.</param>
    /// <param name="Leg">Which of its wires.</param>
    public sealed record OfFeeder(string Feeder, Leg Leg) : ReadingPoint
    {
        /// <summary><c>f1/A</c>.</summary>
        public override string ToString() => $"{Feeder}/{Leg}";
    }

    /// <summary>One wire of a bus at one of its points.</summary>
    /// <param name="District">The district whose bus it is.</param>
    /// <param name="Point">The point.</param>
    /// <param name="Leg">Which wire.</param>
    public sealed record OfBus(string District, string Point, Leg Leg) : ReadingPoint
    {
        /// <summary><c>P1/A</c>.</summary>
        public override string ToString() => $"{Point}/{Leg}";
    }

    /// <summary>A terminal on the track side of a district's breaker, where its bus begins.</summary>
    /// <param name="District">The district.</param>
    /// <param name="Leg">Which terminal.</param>
    public sealed record OfBreaker(string District, Leg Leg) : ReadingPoint
    {
        /// <summary><c>breaker east/A</c>.</summary>
        public override string ToString() => $"breaker {District}/{Leg}";
    }

    /// <summary>An output terminal of a booster, before the breakers of its districts.</summary>
    /// <param name="Booster">The booster.</param>
    /// <param name="Leg">Which terminal.</param>
    public sealed record OfBooster(string Booster, Leg Leg) : ReadingPoint
    {
        /// <summary><c>booster main/A</c>.</summary>
        public override string ToString() => $"booster {Booster}/{Leg}";
    }
}

/// <summary>A place where both conductors can be touched at once, or a load be put across them.</summary>
public abstract record ReadingPlace
{
    private ReadingPlace()
    {
    }

    /// <summary>The two points of the place, the one that carries A by convention first.</summary>
    public abstract (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control);

    /// <summary>Across the rails at a place along a section or bridge.</summary>
    /// <param name="Place">The place.</param>
    public sealed record Along(TrackPlace Place) : ReadingPlace
    {
        /// <inheritdoc/>
        public override (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control)
        {
            (RailSide first, RailSide second) = RailSides.Of(control);
            return (new ReadingPoint.AtPlace(Place, first), new ReadingPoint.AtPlace(Place, second));
        }

        /// <summary><c>loop@1 m</c>.</summary>
        public override string ToString() => Place.ToString();
    }

    /// <summary>Across the rails at an end of a piece, on the piece's own side of the joint.</summary>
    /// <param name="End">The end.</param>
    public sealed record AtEnd(TrackEnd End) : ReadingPlace
    {
        /// <inheritdoc/>
        public override (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control)
        {
            (RailSide first, RailSide second) = RailSides.Of(control);
            return (new ReadingPoint.AtEnd(new(End, first)), new ReadingPoint.AtEnd(new(End, second)));
        }

        /// <summary><c>loop.b</c>.</summary>
        public override string ToString() => End.ToString();
    }

    /// <summary>Across the two wires of a bus at one of its points.</summary>
    /// <param name="District">The district whose bus it is.</param>
    /// <param name="Point">The point.</param>
    public sealed record AtBus(string District, string Point) : ReadingPlace
    {
        /// <inheritdoc/>
        public override (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control) =>
            (new ReadingPoint.OfBus(District, Point, Leg.A), new ReadingPoint.OfBus(District, Point, Leg.B));

        /// <summary><c>P1</c>.</summary>
        public override string ToString() => Point;
    }

    /// <summary>Across the terminals on the track side of a district's breaker.</summary>
    /// <param name="District">The district.</param>
    public sealed record AtBreaker(string District) : ReadingPlace
    {
        /// <inheritdoc/>
        public override (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control) =>
            (new ReadingPoint.OfBreaker(District, Leg.A), new ReadingPoint.OfBreaker(District, Leg.B));

        /// <summary><c>breaker east</c>.</summary>
        public override string ToString() => $"breaker {District}";
    }

    /// <summary>Across the output terminals of a booster.</summary>
    /// <param name="Booster">The booster.</param>
    public sealed record AtBooster(string Booster) : ReadingPlace
    {
        /// <inheritdoc/>
        public override (ReadingPoint First, ReadingPoint Second) Points(ControlSystem control) =>
            (new ReadingPoint.OfBooster(Booster, Leg.A), new ReadingPoint.OfBooster(Booster, Leg.B));

        /// <summary><c>booster main</c>.</summary>
        public override string ToString() => $"booster {Booster}";
    }
}
