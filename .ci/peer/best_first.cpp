// The strongest use of FCL found for the question of clearance/sweep: the least
// distance between moving convex parts and standing ones over a whole motion,
// certified to a tolerance.
//
// One best-first search a step over (pair, interval). A pair starts with the
// distance of its swept boxes as lower bound. An interval [a, b] is measured once,
// at its middle: no point of the part moves faster than L, so the distance on the
// whole interval is at least d(middle) - L (b - a)/2. If that does not settle it,
// both halves are queued. The search ends when the least bound in the queue is
// within the tolerance of the least distance seen.
//
// Pairs in contact when a step begins are left out: fcl::distance does not
// answer for them.
//
//   best_first SCENE.txt MATES TOLERANCE REPEATS
//
// SCENE.txt and MATES are those of testdata/clearance, unpacked. It prints one
// line a step, "step NAME LOWER UPPER CALLS", and "total MILLISECONDS" for each
// repetition of the whole job. Reading and making FCL's objects is not timed.
#include <fcl/fcl.h>

#include <cmath>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <iostream>
#include <memory>
#include <queue>
#include <set>
#include <string>
#include <vector>

namespace {

using Vec = fcl::Vector3d;
using Pose = fcl::Transform3d;

struct Solid {
  std::string id, kind;
  int group = 0;
  std::vector<Vec> vertices;
  std::vector<std::vector<int>> faces;
  std::shared_ptr<fcl::Convexd> shape;
};

struct Move {
  Vec shift, axis, centre;
  double angle = 0;

  Pose at(double s) const {
    Pose p = Pose::Identity();
    p.linear() = Eigen::AngleAxisd(angle * s, axis).toRotationMatrix();
    p.translation() = centre + s * shift - p.linear() * centre;
    return p;
  }
  double arm(const Vec& p) const {
    const Vec r = p - centre;
    return (r - axis * axis.dot(r)).norm();
  }
};

struct Step {
  std::string name;
  std::vector<Pose> start;
  std::vector<std::unique_ptr<Move>> moves;  // by group; none if it stands
  std::set<std::pair<int, int>> mates;

  Pose pose(int group, double s) const {
    return moves[group] ? moves[group]->at(s) * start[group] : start[group];
  }
};

struct Scene {
  std::vector<Solid> solids;
  std::vector<Step> steps;
  std::set<std::pair<std::string, std::string>> excluded;
};

[[noreturn]] void fail(const std::string& what) {
  std::cerr << "best_first: " << what << "\n";
  std::exit(2);
}

class Reader {
 public:
  explicit Reader(const std::string& name) : in_(name), name_(name) {
    if (!in_) fail("cannot open " + name);
  }

  template <class T>
  T get() {
    T x;
    if (!(in_ >> x)) fail(name_ + " ends too early");
    return x;
  }
  int count() {
    get<std::string>();
    return get<int>();
  }
  Vec vec() {
    const double x = get<double>(), y = get<double>(), z = get<double>();
    return {x, y, z};
  }

 private:
  std::ifstream in_;
  std::string name_;
};

Solid readSolid(Reader& in) {
  Solid s;
  s.id = in.get<std::string>();
  s.group = in.get<int>();
  s.kind = in.get<std::string>();
  s.vertices.resize(in.get<int>());
  s.faces.resize(in.get<int>());
  for (Vec& v : s.vertices) v = in.vec();
  auto loops = std::make_shared<std::vector<int>>();
  for (auto& f : s.faces) {
    f.resize(in.get<int>());
    loops->push_back(static_cast<int>(f.size()));
    for (int& i : f) loops->push_back(i = in.get<int>());
  }
  auto vertices = std::make_shared<std::vector<Vec>>(s.vertices);
  s.shape = std::make_shared<fcl::Convexd>(vertices, static_cast<int>(s.faces.size()), loops);
  return s;
}

Scene readScene(const std::string& file, const std::string& mates) {
  Reader in(file);
  Scene scene;
  for (int n = in.count(); n > 0; n--) scene.solids.push_back(readSolid(in));
  const int groups = in.count();
  for (int i = 0; i < groups; i++) in.get<std::string>();
  std::vector<Pose> now(groups, Pose::Identity());
  for (int n = in.count(); n > 0; n--) {
    Step step;
    step.name = in.get<std::string>();
    in.get<std::string>();
    step.start = now;
    step.moves.resize(groups);
    for (int m = in.get<int>(); m > 0; m--) {
      const int group = in.get<int>();
      auto move = std::make_unique<Move>();
      move->shift = in.vec();
      move->axis = in.vec();
      move->centre = in.vec();
      move->angle = in.get<double>();
      now[group] = move->at(1) * now[group];
      step.moves[group] = std::move(move);
    }
    scene.steps.push_back(std::move(step));
  }
  for (int n = in.count(); n > 0; n--) {
    const std::string a = in.get<std::string>(), b = in.get<std::string>();
    scene.excluded.insert({a, b});
  }
  Reader touching(mates);
  for (Step& step : scene.steps) {
    for (int n = touching.get<int>(); n > 0; n--) {
      const int a = touching.get<int>(), b = touching.get<int>();
      step.mates.insert({a, b});
    }
  }
  return scene;
}

struct Box {
  Vec low = Vec::Constant(HUGE_VAL), high = Vec::Constant(-HUGE_VAL);

  void add(const Vec& p) {
    low = low.cwiseMin(p);
    high = high.cwiseMax(p);
  }
  double gap(const Box& o) const {
    return (low - o.high).cwiseMax(o.low - high).cwiseMax(Vec::Zero()).norm();
  }
};

// Swept is a part over a step: the box of all it touches and its top speed.
struct Swept {
  Box box;
  double speed = 0;
};

Swept sweep(const Solid& solid, const Step& step) {
  Swept out;
  const Move* move = step.moves[solid.group].get();
  const Pose first = step.pose(solid.group, 0), last = step.pose(solid.group, 1);
  double arm = 0;
  for (const Vec& v : solid.vertices) {
    out.box.add(first * v);
    out.box.add(last * v);
    if (move) arm = std::max(arm, move->arm(first * v));
  }
  if (move) {
    const Vec bow = Vec::Constant(move->angle * move->angle * arm / 8);
    out.box.low -= bow;
    out.box.high += bow;
    out.speed = move->shift.norm() + std::abs(move->angle) * arm;
  }
  return out;
}

struct Node {
  double lower, from, to, speed;
  int a, b;
  bool operator<(const Node& o) const { return lower > o.lower; }  // least first
};

struct Answer {
  double lower, upper;
  long calls;
};

class Search {
 public:
  explicit Search(const Scene& scene) : scene_(scene) {
    for (const Solid& s : scene.solids) objects_.emplace_back(s.shape, Pose::Identity());
    request_.enable_nearest_points = false;
    request_.gjk_solver_type = fcl::GST_LIBCCD;
  }

  Answer least(const Step& step, double tolerance) {
    std::priority_queue<Node> queue(std::less<Node>(), seeds(step));
    Answer out{HUGE_VAL, HUGE_VAL, 0};
    while (!queue.empty()) {
      const Node n = queue.top();
      queue.pop();
      if (n.lower >= out.upper - tolerance) {
        out.lower = std::min(out.lower, n.lower);
        break;
      }
      const double middle = (n.from + n.to) / 2;
      const double d = distance(step, n.a, n.b, middle);
      out.calls++;
      out.upper = std::min(out.upper, d);
      const double lower = std::max(n.lower, d - n.speed * (n.to - n.from) / 2);
      if (lower >= out.upper - tolerance) {
        out.lower = std::min(out.lower, lower);
        continue;
      }
      queue.push({lower, n.from, middle, n.speed, n.a, n.b});
      queue.push({lower, middle, n.to, n.speed, n.a, n.b});
    }
    return out;
  }

 private:
  std::vector<Node> seeds(const Step& step) const {
    std::vector<Swept> swept;
    for (const Solid& s : scene_.solids) swept.push_back(sweep(s, step));
    std::vector<Node> out;
    for (size_t a = 0; a < swept.size(); a++) {
      const Solid& part = scene_.solids[a];
      if (!step.moves[part.group]) continue;
      for (size_t b = 0; b < swept.size(); b++) {
        const Solid& other = scene_.solids[b];
        const std::pair<int, int> pair(static_cast<int>(a), static_cast<int>(b));
        if (other.group != 0 || scene_.excluded.count({part.kind, other.kind}) || step.mates.count(pair)) continue;
        out.push_back({swept[a].box.gap(swept[b].box), 0, 1, swept[a].speed, pair.first, pair.second});
      }
    }
    return out;
  }

  double distance(const Step& step, int a, int b, double s) {
    objects_[a].setTransform(step.pose(scene_.solids[a].group, s));
    fcl::DistanceResultd result;
    fcl::distance(&objects_[a], &objects_[b], request_, result);
    return result.min_distance;
  }

  const Scene& scene_;
  std::vector<fcl::CollisionObjectd> objects_;
  fcl::DistanceRequestd request_;
};

}  // namespace

int main(int argc, char** argv) {
  if (argc != 5) fail("usage: best_first SCENE.txt MATES TOLERANCE REPEATS");
  const Scene scene = readScene(argv[1], argv[2]);
  const double tolerance = std::stod(argv[3]);
  Search search(scene);
  for (int k = std::stoi(argv[4]); k > 0; k--) {
    std::vector<Answer> answers;
    const std::clock_t start = std::clock();  // processor time: others may be at work beside
    for (const Step& step : scene.steps) answers.push_back(search.least(step, tolerance));
    const double spent = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    for (size_t i = 0; i < answers.size(); i++)
      std::printf("step %s %.9f %.9f %ld\n", scene.steps[i].name.c_str(), answers[i].lower, answers[i].upper, answers[i].calls);
    std::printf("total %.6f\n", spent);
  }
}
