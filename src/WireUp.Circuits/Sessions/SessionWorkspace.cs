using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// One session, from event to event: a train comes to the end of a leg, leaves one, crosses a border of districts, ends its start, has stood
/// long enough. Between two events nothing changes but places.
/// </summary>
internal sealed class SessionWorkspace
{
    private readonly OperatingModel _model;
    private readonly SeededStreamWorkspace _chance;
    private readonly MovementWorkspace _movement;
    private readonly PlacementWorkspace _placement;
    private readonly TripChooserWorkspace _chooser;
    private readonly OperatorsWorkspace _operators;
    private readonly PriorityQueue<(int Train, int Stamp), (double Seconds, long Order)> _events = new();
    private readonly List<string> _leftOver = [];
    private readonly double _end;
    private long _order;
    private int _trips, _waits, _otherWays, _lifted;
    private double _lastEvent;
    private bool _looksAgain;

    private const int Operator = -1, LooksAgain = -2;

    internal SessionWorkspace(SessionRailway railway, ulong seed, int session, double seconds, bool traced = false)
    {
        (_model, _end) = (railway.Model, seconds);
        _chance = new(seed, session);
        _movement = new(railway);
        _placement = new(railway, _movement, _chance);
        _chooser = new(railway, _movement, _chance);
        Meter = new(railway.BoosterOf, railway.Boosters.Length, traced);
        Trains = [.. railway.Stock.Units.Select((unit, i) => new TrainWorkspace(i, unit, railway.Track))];
        _operators = new(Trains, railway.Stock.MovingAtOnce, _chance);
        foreach (TrainWorkspace train in Trains.OrderByDescending(train => train.Unit.Metres))
        {
            SetDown(train);
        }

        for (int hand = 0; hand < railway.Stock.MovingAtOnce; hand++)
        {
            Push(_chance.Next() * _model.Dwell.Most, Operator, 0);
        }
    }

    internal ImmutableArray<TrainWorkspace> Trains { get; }

    internal CurrentMeterWorkspace Meter { get; }

    /// <summary>Seconds since the session began.</summary>
    internal double Now { get; private set; }

    internal SessionOutcome Run()
    {
        while (Step())
        {
        }

        Now = _end;
        return new(Meter.Finish(_end), _trips, _waits, _otherWays, _lifted, [.. _leftOver], Meter.MeanMoving);
    }

    /// <summary>Goes on to the next event; false at the end of the session.</summary>
    internal bool Step()
    {
        if (!_events.TryDequeue(out (int Train, int Stamp) what, out (double Seconds, long) when) || when.Seconds >= _end)
        {
            return false;
        }

        Now = when.Seconds;
        switch (what.Train)
        {
            case Operator:
                _operators.Comes();
                Drive();
                break;
            case LooksAgain:
                LookAgain();
                break;
            default:
                if (Trains[what.Train].Stamp == what.Stamp)
                {
                    _lastEvent = Now;
                    Happens(Trains[what.Train]);
                }

                break;
        }

        return true;
    }

    private void Happens(TrainWorkspace train)
    {
        switch (train.State)
        {
            case TrainDoing.Dwelling:
                train.State = TrainDoing.Standing;
                _operators.Leaves(train);
                Drive();
                break;
            case TrainDoing.Running:
                Roll(train);
                break;
            case TrainDoing.Waiting:
                LookAhead(train);
                break;
            default:
                throw new InvalidOperationException($"nothing happens to a train that is {train.State}");
        }
    }

    private void Drive()
    {
        if (_operators.TakeTrains(Depart) && !_looksAgain)
        {
            _looksAgain = true;
            Push(Now + _model.FollowSeconds, LooksAgain, 0);
        }
    }

    /// <summary>When nothing has moved for long and nothing can, one train is lifted off.</summary>
    private void LookAgain()
    {
        _looksAgain = false;
        bool jammed = Now - _lastEvent >= _model.StuckSeconds && Trains.All(train => train.State is TrainDoing.Standing or TrainDoing.Away);
        if (jammed && Trains.Where(train => train.State == TrainDoing.Standing).ToArray() is { Length: > 0 } standing)
        {
            TrainWorkspace train = standing[_chance.Below(standing.Length)];
            _movement.Parks(train, -1);
            LiftOff(train);
            _lastEvent = Now;
        }

        Drive();
    }

    private bool Depart(TrainWorkspace train)
    {
        _movement.Parks(train, -1);
        if (!_chooser.Choose(train))
        {
            _movement.Parks(train, 1);
            return false;
        }

        _movement.Occupancy.Claims(train.Goal, 1);
        _trips++;
        train.Speed = _chance.Between(_model.Speed);
        Start(train);
        return true;
    }

    private void Start(TrainWorkspace train)
    {
        train.State = TrainDoing.Running;
        train.HeldSince = double.NaN;
        (train.At, train.StartingUntil) = (Now, Now + _model.StartSeconds);
        Meter.Moves(train.Unit.Locomotives, Now);
        Meter.Draw(train, Draws.Starting, Now);
        Schedule(train);
    }

    /// <summary>Brings a running train to where it is now and does what there is to do there.</summary>
    private void Roll(TrainWorkspace train)
    {
        if (double.IsNaN(train.HeldSince))
        {
            double left = train.HeadLeft - (train.Speed * (Now - train.At));
            train.HeadLeft = left < TrainWorkspace.Same ? 0 : left;
        }

        train.At = Now;
        while (train.HasLeftTail)
        {
            _movement.DropTail(train);
        }

        Meter.Draw(train, Now < train.StartingUntil ? Draws.Starting : Draws.Running, Now);
        if (train.ToTarget <= TrainWorkspace.Same)
        {
            Arrive(train);
        }
        else if (train.HeadLeft <= 0 && !_movement.GoOn(train))
        {
            Hold(train);
        }
        else
        {
            train.HeldSince = double.NaN;
            Schedule(train);
        }
    }

    private void Arrive(TrainWorkspace train)
    {
        _movement.GiveBackGranted(train);
        _movement.Occupancy.Claims(train.Goal, -1);
        train.Aim(-1, default, onGoal: false);
        Stop(train);
        Dwell(train);
    }

    private void Dwell(TrainWorkspace train)
    {
        train.State = TrainDoing.Dwelling;
        _movement.Parks(train, 1);
        Schedule(train, Now + _chance.Between(_model.Dwell));
    }

    private void Stop(TrainWorkspace train)
    {
        Meter.Moves(-train.Unit.Locomotives, Now);
        train.State = TrainDoing.Waiting;
        Meter.Draw(train, Draws.Standing, Now);
    }

    /// <summary>Its way is occupied: behind a train that runs the same way it slows down, else it stops and waits.</summary>
    private void Hold(TrainWorkspace train)
    {
        if (double.IsNaN(train.HeldSince))
        {
            train.HeldSince = Now;
        }

        int ahead = _movement.Ahead(train);
        bool follows = ahead >= 0 && Trains[ahead].State == TrainDoing.Running && Now - train.HeldSince < _model.FollowSeconds;
        if (follows)
        {
            Schedule(train, Now + (_model.LookSeconds / 2));
            return;
        }

        _waits++;
        Stop(train);
        train.PatienceUntil = Now + _chance.Between(_model.Patience);
        Schedule(train, Now + _model.LookSeconds);
    }

    private void LookAhead(TrainWorkspace train)
    {
        if (_movement.GoOn(train))
        {
            Start(train);
        }
        else if (Now - train.HeldSince >= _model.StuckSeconds)
        {
            GiveUp(train);
        }
        else
        {
            if (Now >= train.PatienceUntil && TakesAnotherGoal(train))
            {
                return;
            }

            Schedule(train, Now + _model.LookSeconds);
        }
    }

    /// <summary>Out of patience: it stays where it is if that is its goal; else it takes another goal, perhaps back.</summary>
    private bool TakesAnotherGoal(TrainWorkspace train)
    {
        train.PatienceUntil = Now + _chance.Between(_model.Patience);
        _movement.Occupancy.Claims(train.Goal, -1);
        if (train.IsOnGoal)
        {
            train.Aim(-1, default, onGoal: false);
            Dwell(train);
            return true;
        }

        double held = train.HeldSince;
        bool found = _chooser.Choose(train);
        _movement.Occupancy.Claims(train.Goal, 1);
        if (found)
        {
            _otherWays++;
            Start(train);
        }
        else
        {
            train.HeldSince = held;
        }

        return found;
    }

    private void GiveUp(TrainWorkspace train)
    {
        _movement.Occupancy.Claims(train.Goal, -1);
        train.Aim(-1, default, onGoal: false);
        LiftOff(train);
        _operators.Leaves(train);
        Drive();
    }

    private void LiftOff(TrainWorkspace train)
    {
        _lifted++;
        Meter.Draw(train, Draws.Nothing, Now);
        _movement.LiftOff(train);
        SetDown(train);
    }

    private void SetDown(TrainWorkspace train)
    {
        train.HeldSince = double.NaN;
        train.Stamp++;
        if (!_placement.SetDown(train))
        {
            train.State = TrainDoing.Away;
            _leftOver.Add(train.Unit.Name);
            return;
        }

        train.State = TrainDoing.Standing;
        _movement.Parks(train, 1);
        Meter.Draw(train, Draws.Standing, Now);
    }

    /// <summary>The next event of a running train.</summary>
    private void Schedule(TrainWorkspace train)
    {
        double at = Now + (train.ToNext() / train.Speed);
        Schedule(train, train.StartingUntil > Now ? Math.Min(at, train.StartingUntil) : at);
    }

    private void Schedule(TrainWorkspace train, double at) => Push(at, train.Number, ++train.Stamp);

    private void Push(double at, int train, int stamp) => _events.Enqueue((train, stamp), (at, _order++));
}
