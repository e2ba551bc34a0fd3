// An arm among boxes and a mesh, asked through the Flexible Collision Library.
//
// Standard input holds words and numbers (m, rad), one scene:
//   joints N, then for each: origin (3 x 4, row by row) lower upper
//   bodies B, then for each: link kind(box x y z | cylinder r l | sphere r) pose
//   boxes K, then for each: x y z pose
//   mesh V T, then V vertices and T triangles
//   meshes M, then for each: pose
// Pairs: every body but those of link 0 with every box and mesh; bodies with each
// other where their links are neither the same nor neighbours, 3 and 5, 4 and 6 apart.
#pragma once
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/geometry/shape/box.h>
#include <fcl/geometry/shape/cylinder.h>
#include <fcl/geometry/shape/sphere.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/collision_object.h>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <string>
#include <utility>
#include <vector>

using Pose = fcl::Transform3d;
using Geometry = std::shared_ptr<fcl::CollisionGeometryd>;

inline double number() {
  double x;
  if (!(std::cin >> x)) { std::cerr << "a number is missing\n"; std::exit(2); }
  return x;
}

inline int heading(const std::string& want) {
  std::string word;
  if (!(std::cin >> word) || word != want) { std::cerr << "found " << word << ", want " << want << "\n"; std::exit(2); }
  return int(number());
}

inline Pose readPose() {
  Pose p = Pose::Identity();
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 4; c++) p.matrix()(r, c) = number();
  return p;
}

inline Geometry readShape() {
  std::string kind;
  std::cin >> kind;
  Geometry g;
  double a = number();
  if (kind == "sphere") {
    g = std::make_shared<fcl::Sphered>(a);
  } else if (kind == "cylinder") {
    double l = number();
    g = std::make_shared<fcl::Cylinderd>(a, l);
  } else if (kind == "box") {
    double b = number(), c = number();
    g = std::make_shared<fcl::Boxd>(a, b, c);
  } else {
    std::cerr << "unknown kind " << kind << "\n";
    std::exit(2);
  }
  g->computeLocalAABB();
  return g;
}

struct Body {
  int link;
  Pose linkFromBody;
  std::unique_ptr<fcl::CollisionObjectd> object;
};

struct Scene {
  std::vector<Pose> origins;
  std::vector<double> lower, upper;
  std::vector<Body> bodies;
  std::vector<std::unique_ptr<fcl::CollisionObjectd>> around;
  std::vector<std::pair<int, int>> own;
  std::vector<Pose> links;
  long checks = 0;

  void read() {
    for (int n = heading("joints"); n > 0; n--) {
      origins.push_back(readPose());
      lower.push_back(number());
      upper.push_back(number());
    }
    links.resize(origins.size() + 1, Pose::Identity());
    for (int n = heading("bodies"); n > 0; n--) {
      int link = int(number());
      Geometry g = readShape();
      Pose p = readPose();
      bodies.push_back({link, p, std::make_unique<fcl::CollisionObjectd>(g, p)});
    }
    for (int n = heading("boxes"); n > 0; n--) {
      double x = number(), y = number(), z = number();
      Geometry g = std::make_shared<fcl::Boxd>(x, y, z);
      place(g, readPose());
    }
    Geometry mesh = readMesh();
    for (int n = heading("meshes"); n > 0; n--) place(mesh, readPose());
    for (size_t i = 0; i < bodies.size(); i++)
      for (size_t j = i + 1; j < bodies.size(); j++) {
        int a = bodies[i].link, b = bodies[j].link;
        if (b - a > 1 && !(a == 4 && b == 6) && !(a == 3 && b == 5)) own.push_back({int(i), int(j)});
      }
  }

  void place(Geometry g, const Pose& p) {
    g->computeLocalAABB();
    around.push_back(std::make_unique<fcl::CollisionObjectd>(g, p));
    around.back()->computeAABB();
  }

  static Geometry readMesh() {
    int nv = heading("mesh"), nt = int(number());
    std::vector<fcl::Vector3d> vertices;
    std::vector<fcl::Triangle> triangles;
    for (int i = 0; i < nv; i++) {
      double x = number(), y = number(), z = number();
      vertices.emplace_back(x, y, z);
    }
    for (int i = 0; i < nt; i++) {
      int a = int(number()), b = int(number()), c = int(number());
      triangles.emplace_back(a, b, c);
    }
    auto g = std::make_shared<fcl::BVHModel<fcl::OBBRSSd>>();
    g->beginModel(nt, nv);
    g->addSubModel(vertices, triangles);
    g->endModel();
    return g;
  }

  bool touch(fcl::CollisionObjectd* a, fcl::CollisionObjectd* b) {
    if (!a->getAABB().overlap(b->getAABB())) return false;
    fcl::CollisionRequestd request;
    fcl::CollisionResultd result;
    return fcl::collide(a, b, request, result) > 0;
  }

  bool valid(const double* q) {
    checks++;
    Pose at = Pose::Identity();
    for (size_t j = 0; j < origins.size(); j++) {
      at = at * origins[j];
      double c = std::cos(q[j]), s = std::sin(q[j]);
      Eigen::Matrix3d turn;
      turn << c, -s, 0, s, c, 0, 0, 0, 1;
      at.linear() = at.linear() * turn;
      links[j + 1] = at;
    }
    for (Body& b : bodies) {
      b.object->setTransform(links[b.link] * b.linkFromBody);
      b.object->computeAABB();
    }
    for (Body& b : bodies)
      if (b.link > 0)
        for (auto& o : around)
          if (touch(b.object.get(), o.get())) return false;
    for (auto& p : own)
      if (touch(bodies[p.first].object.get(), bodies[p.second].object.get())) return false;
    return true;
  }
};
